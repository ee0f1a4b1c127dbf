/**
 * How far a word about one frame carries: what is wrong in a frame is wrong alike in its neighbours.
 *
 * The landmarks' error in the picture keeps 0.94 of itself from one frame to the next, 0.75 over 0.27 s, 0.64 over half a second;
 * where the joint moves 0.88, 0.44, 0.37 (autocorrelation over the twelve joints of the four reference clips, full; heavy alike).
 * What is left after a second would last through the take, but a word about one frame must not change what is far from it,
 * so the kernel ends there: k(u) = (1 - u)³(3u + 1), smooth and positive definite (Wendland 1995, for one dimension; formula from memory),
 * u the time between on a clock that runs once a second at rest and 1.6 times as fast where the joint moves. It gives 0.71 at 0.27 s at rest,
 * 0.43 moving.
 *
 * Between the words a monotone cubic runs through them, level beyond the first and the last, so that nothing overshoots; of it s counts,
 * s = (a + b - 2ab)/(1 - ab) with a and b the kernel to the word before and to the one behind: 1 in a frame that a word was said of, the kernel itself
 * where there is only one near.
 */
import { hermite, pchipInnerSlope } from '../../numeric/pchip.ts';

/** Ticks of the clock after which nothing is left. */
const REACH = 1;
export const REACH_S = 1;
const MOVING_RATE = 1.6;
/** A joint moves when it is this fast across the picture, metres a second (3 px a frame in the measurement above). */
const MOVING_M_S = 0.3;
export interface Word {
  readonly frame: number;
  readonly values: readonly number[];
}

/**
 * - `values[T·n]` what the words say of each frame.
 * - `share[T]` how much of a frame's error they know: 1 in a frame that a word was said of, 0 out of reach.
 */
export interface Spread {
  readonly values: Float64Array;
  readonly share: Float64Array;
}

/** The kernel at a distance of `u` ticks. */
export function kernel(u: number): number {
  const left = 1 - Math.min(REACH, Math.abs(u)) / REACH;
  return left ** 3 * (3 * (1 - left) + 1);
}

/**
 * The clock [T]: ticks since the first frame.
 *
 * @param speedMS [T] how fast the joint moves across the picture, metres a second
 * @param jumps [T] ticks added on entering a frame in which the landmark has jumped, so that what was learnt ends there
 */
export function clockOf(timesS: Float64Array, speedMS: Float64Array, jumps: Float64Array): Float64Array {
  const clock = new Float64Array(timesS.length);
  for (let t = 1; t < clock.length; t++) {
    const moving = Math.min(1, (speedMS[t]! + speedMS[t - 1]!) / 2 / MOVING_M_S);
    clock[t] = clock[t - 1]! + (timesS[t]! - timesS[t - 1]!) * (1 + (MOVING_RATE - 1) * moving) + jumps[t]!;
  }
  return clock;
}

/** Carries words over their neighbours. Of several words about one frame the last counts. */
export function spreadWords(clock: Float64Array, words: readonly Word[]): Spread {
  const known = [...new Map(words.map((word) => [word.frame, word])).values()].sort((a, b) => a.frame - b.frame);
  const width = known[0]?.values.length ?? 0;
  const at = known.map(({ frame }) => clock[frame]!);
  const slopes = Array.from({ length: width }, (_, c) => slopesOf(at, known.map(({ values }) => values[c]!)));
  const values = new Float64Array(clock.length * width);
  const share = new Float64Array(clock.length);
  let next = 0;
  for (let t = 0; t < clock.length; t++) {
    while (next < known.length && known[next]!.frame <= t) next++;
    const before = next - 1;
    const a = before < 0 ? 0 : kernel(clock[t]! - at[before]!);
    const b = next === known.length ? 0 : kernel(at[next]! - clock[t]!);
    const part = a === 1 || b === 1 ? 1 : (a + b - 2 * a * b) / (1 - a * b);
    if (part === 0) continue;
    share[t] = part;
    for (let c = 0; c < width; c++) {
      const [from, to] = [known[before]?.values[c], known[next]?.values[c]];
      let value = from ?? to ?? 0;
      if (from !== undefined && to !== undefined) {
        const h = at[next]! - at[before]!;
        value = hermite(h, (clock[t]! - at[before]!) / h, from, to, slopes[c]![before]!, slopes[c]![next]!);
      }
      values[t * width + c] = part * value;
    }
  }
  return { values, share };
}

/** Slopes of the monotone cubic (Fritsch and Butland, as in `numeric/pchip.ts`); level at both ends. */
function slopesOf(at: readonly number[], values: readonly number[]): number[] {
  return values.map((value, i) => {
    if (i === 0 || i === values.length - 1) return 0;
    const [before, after] = [at[i]! - at[i - 1]!, at[i + 1]! - at[i]!];
    return pchipInnerSlope(before, after, (value - values[i - 1]!) / before, (values[i + 1]! - value) / after);
  });
}
