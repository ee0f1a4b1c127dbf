/** Derivatives through v/|v|, which several residuals need for the spine and the two half-axes. */
import type { NormalEquations } from '../normalEquations.ts';

/** Adds the derivative by a free vector v (at `free[i..i+3)`, unknowns from `at`) of something with gradient g by v/|v|. */
export function unitGradient(
  rows: NormalEquations, frame: number, at: number, free: Float64Array, i: number, gx: number, gy: number, gz: number,
): void {
  const x = free[i]!;
  const y = free[i + 1]!;
  const z = free[i + 2]!;
  const square = x * x + y * y + z * z || 1e-18;
  const by = 1 / Math.sqrt(square);
  const along = (gx * x + gy * y + gz * z) / square;
  rows.vector(frame, at, (gx - along * x) * by, (gy - along * y) * by, (gz - along * z) * by);
}
