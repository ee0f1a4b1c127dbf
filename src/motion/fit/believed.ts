/**
 * How much a landmark counts by its visibility (0..1): as it is from .7 on, fading to nothing at .4. What the model calls hidden
 * it has guessed, sometimes 40 cm beside (chosen on `table-torben`).
 */
export function believed(visibility: number): number {
  const u = Math.min(1, Math.max(0, (visibility - 0.4) / 0.3));
  return visibility * u * u * (3 - 2 * u);
}
