/**
 * Which foot stands when: slow in the picture, near the lowest level about that time, for long enough. A stand begins where
 * a foot is surely still and goes on while it is fairly still, so that jitter does not chop it up. A foot that is still for
 * longer, and not above the other one, stands at whatever level.
 */
import { PLANTED_LEVEL_M, PLANTED_SPEED_M_S } from './constants.ts';

/** Time over which speeds are taken, and about which the lowest level is looked for; least time a foot stands; how many times the sure limits a stand may reach (chosen: a fifth of a step; longer than a jump's flight; two frames of film; well below a swinging foot's metre a second). */
const SPEED_SPAN_S = 0.15;
const LEVEL_SPAN_S = 1.5;
const LEAST_STAND_S = 0.1;
const FAIRLY = 2;
/**
 * Whoever is still this long stands on something, however low the feet were at another time (levels drift by centimetres with
 * the pose: the landmarks' bias, a guessed lens). A jump's top is slow for a fortieth of a second only.
 */
const LEAST_STILL_S = 0.3;

/**
 * @param ankles [T·2·3] left and right ankle: metres to the right, metres up, and metres away (depth is not looked at)
 * @param known [T] 1 where somebody was found
 * @returns [T·2] 1 where the foot stands
 */
export function findContacts(ankles: Float64Array, known: Uint8Array, timesS: Float64Array): Float64Array {
  const frames = timesS.length;
  const out = new Float64Array(frames * 2);
  const still = new Float64Array(frames * 2);
  const across = (t: number, foot: number): number => ankles[(t * 2 + foot) * 3]!;
  const up = (t: number, foot: number): number => ankles[(t * 2 + foot) * 3 + 1]!;
  let low = 0;
  let high = 0;
  let first = 0;
  let last = 0;
  for (let t = 0; t < frames; t++) {
    const now = timesS[t]!;
    while (timesS[first]! < now - SPEED_SPAN_S / 2 && first < t) first++;
    while (last < frames - 1 && timesS[last + 1]! <= now + SPEED_SPAN_S / 2) last++;
    while (timesS[low]! < now - LEVEL_SPAN_S) low++;
    while (high < frames - 1 && timesS[high + 1]! <= now + LEVEL_SPAN_S) high++;
    if (known[t] !== 1) continue;
    // Too few frames in the span (5 a second): the neighbours.
    const a = first < t ? first : Math.max(0, t - 1);
    const b = last > t ? last : Math.min(frames - 1, t + 1);
    if (b === a) continue;
    let floor = Number.POSITIVE_INFINITY;
    for (let u = low; u <= high; u++) if (known[u] === 1) floor = Math.min(floor, up(u, 0), up(u, 1));
    for (let foot = 0; foot < 2; foot++) {
      // Slope of the line through all frames of the span: steadier than its two ends.
      const vx = slope(timesS, a, b, (u) => across(u, foot));
      const vy = slope(timesS, a, b, (u) => up(u, foot));
      const speed = Math.hypot(vx, vy) / PLANTED_SPEED_M_S;
      const level = (up(t, foot) - floor) / PLANTED_LEVEL_M;
      const worst = Math.max(speed, level);
      out[t * 2 + foot] = worst < 1 ? SURE : speed < FAIRLY && level < 1 ? FAIR : 0;
      const overOther = (up(t, foot) - Math.min(up(t, 0), up(t, 1))) / PLANTED_LEVEL_M;
      still[t * 2 + foot] = overOther < 1 ? (speed < 1 ? SURE : speed < FAIRLY ? FAIR : 0) : 0;
    }
  }
  keepSureRuns(out);
  keepSureRuns(still);
  dropShort(out, timesS, LEAST_STAND_S);
  dropShort(still, timesS, LEAST_STILL_S);
  for (let i = 0; i < out.length; i++) out[i] = Math.max(out[i]!, still[i]!);
  return out;
}

const SURE = 1;
const FAIR = 0.5;

/** Keeps of each run of fair frames the part from its first sure frame to its last. */
function keepSureRuns(planted: Float64Array): void {
  for (let foot = 0; foot < 2; foot++) {
    let start = -1;
    let first = -1;
    let last = -1;
    for (let i = foot; i < planted.length + 2; i += 2) {
      const value = planted[i] ?? 0;
      if (value > 0) {
        if (start < 0) start = i;
        if (value === SURE) {
          if (first < 0) first = i;
          last = i;
        }
      } else if (start >= 0) {
        for (let j = start; j < i; j += 2) planted[j] = first >= 0 && j >= first && j <= last ? 1 : 0;
        start = first = last = -1;
      }
    }
  }
}

function slope(timesS: Float64Array, a: number, b: number, value: (t: number) => number): number {
  let st = 0;
  let sv = 0;
  for (let u = a; u <= b; u++) {
    st += timesS[u]!;
    sv += value(u);
  }
  const n = b - a + 1;
  let tt = 0;
  let tv = 0;
  for (let u = a; u <= b; u++) {
    const d = timesS[u]! - st / n;
    tt += d * d;
    tv += d * (value(u) - sv / n);
  }
  return tv / tt;
}

/** Forgets stands shorter than the least, which are passing lulls (the top of a jump, a swinging foot's turn). */
function dropShort(planted: Float64Array, timesS: Float64Array, leastS: number): void {
  const frames = timesS.length;
  for (let foot = 0; foot < 2; foot++) {
    let start = -1;
    for (let t = 0; t <= frames; t++) {
      const stands = t < frames && planted[t * 2 + foot]! > 0;
      if (stands && start < 0) start = t;
      if (!stands && start >= 0) {
        // A single frame of a slow clip already lasts longer than the least.
        const end = Math.min(frames - 1, t);
        if (timesS[end]! - timesS[start]! < leastS) for (let u = start; u < t; u++) planted[u * 2 + foot] = 0;
        start = -1;
      }
    }
  }
}

/** What a person says about a foot: 0 free, 1 standing, anything else leaves the finding alone. */
export interface ContactOverride {
  readonly left?: ArrayLike<number>;
  readonly right?: ArrayLike<number>;
}

/** Lays a person's word over what was found, in place. */
export function overrideContacts(planted: Float64Array, override: ContactOverride | undefined): void {
  for (const [foot, said] of [override?.left, override?.right].entries()) {
    if (said === undefined) continue;
    for (let t = 0; t < planted.length / 2; t++) if (said[t] === 0 || said[t] === 1) planted[t * 2 + foot] = said[t]!;
  }
}
