/**
 * Moments of a curve that can be timed: where it comes up, where its extreme lies, where it goes down again.
 *
 * An excursion is a stretch that rises above three quarters of the curve's own range and ends where the curve is below one
 * quarter again. The levels belong to each curve itself, so that a curve squeezed in depth is timed like a true one.
 */

const LOW = 0.25;
const HIGH = 0.75;
/** Within this of the extreme, in degrees, a curve counts as held there. */
const HELD_DEG = 1;

/** Times in seconds; `null` where the clip begins or ends before the level is passed. */
export interface Excursion {
  readonly riseLowS: number | null;
  readonly riseHighS: number | null;
  /** Vertex of the parabola through the highest sample and its neighbours. */
  readonly peakS: number;
  readonly fallHighS: number | null;
  readonly fallLowS: number | null;
  /** How long the curve stays within 1 degree of the extreme. A held extreme is no moment that could be timed. */
  readonly heldS: number;
}

/**
 * Time of the vertex of the parabola through samples i-1, i, i+1 at any spacing; the sample's own time at the ends and where
 * the three lie on a line.
 */
export function parabolicPeakS(timesS: ArrayLike<number>, values: ArrayLike<number>, i: number): number {
  const t1 = timesS[i]!;
  if (i === 0 || i === timesS.length - 1) return t1;
  const [before, after] = [timesS[i - 1]! - t1, timesS[i + 1]! - t1];
  const [down, up] = [values[i - 1]! - values[i]!, values[i + 1]! - values[i]!];
  // y = a t² + b t through (before, down), (0, 0), (after, up).
  const a = (up / after - down / before) / (after - before);
  const b = up / after - a * after;
  if (!(Math.abs(a) > 0)) return t1;
  return t1 + Math.max(before, Math.min(after, -b / (2 * a)));
}

/** Time at which the line from sample i to i + 1 passes `level`. */
function crossingS(timesS: ArrayLike<number>, values: ArrayLike<number>, i: number, level: number): number {
  const share = (level - values[i]!) / (values[i + 1]! - values[i]!);
  return timesS[i]! + share * (timesS[i + 1]! - timesS[i]!);
}

/** From the peak outward in the direction `step` to the first passage of `level`; `null` where the curve ends first. */
function passage(timesS: ArrayLike<number>, values: ArrayLike<number>, peak: number, step: 1 | -1, level: number): number | null {
  for (let i = peak; i + step >= 0 && i + step < values.length; i += step) {
    if (values[i + step]! < level) return crossingS(timesS, values, Math.min(i, i + step), level);
  }
  return null;
}

function heldS(timesS: ArrayLike<number>, values: ArrayLike<number>, peak: number): number {
  let [from, to] = [peak, peak];
  while (from > 0 && values[from - 1]! >= values[peak]! - HELD_DEG) from -= 1;
  while (to < values.length - 1 && values[to + 1]! >= values[peak]! - HELD_DEG) to += 1;
  return timesS[to]! - timesS[from]!;
}

/**
 * @param timesS T times, strictly rising, seconds
 * @param values T values, all finite
 * @returns every excursion in the order of time
 */
export function excursions(timesS: ArrayLike<number>, values: ArrayLike<number>): Excursion[] {
  const list = Array.from(values);
  const least = Math.min(...list);
  const range = Math.max(...list) - least;
  if (!(range > 0)) return [];
  const [low, high] = [least + LOW * range, least + HIGH * range];
  const found: Excursion[] = [];
  let peak = -1;
  const close = (): void => {
    if (peak < 0) return;
    const at = (step: 1 | -1, level: number): number | null => passage(timesS, list, peak, step, level);
    found.push({
      riseLowS: at(-1, low), riseHighS: at(-1, high),
      peakS: parabolicPeakS(timesS, list, peak),
      fallHighS: at(1, high), fallLowS: at(1, low),
      heldS: heldS(timesS, list, peak),
    });
    peak = -1;
  };
  for (let i = 0; i < list.length; i += 1) {
    const value = list[i]!;
    if (value < low) close();
    else if (value >= high && (peak < 0 || value > list[peak]!)) peak = i;
  }
  close();
  return found;
}
