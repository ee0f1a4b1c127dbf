/**
 * What a smoother does to a move, told in figures: how much of it is left, how late it comes, how a hold trembles, what
 * happens at the ends, over a gap, and where frames are seen badly.
 */
import { pchip } from '../../src/numeric/pchip.ts';
import { FPS, smoothedElbow, type Way } from './elbow.ts';

/** Middle of the range, so that the elbow never goes through straight. */
const MIDDLE_DEG = 60;
const SEEDS = 20;

const sine = (hz: number, halfDeg: number, phase = 0.37) => (timeS: number): number =>
  MIDDLE_DEG + halfDeg * Math.cos(2 * Math.PI * hz * timeS - phase);

const rms = (values: readonly number[]): number => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

/** Size and lateness (s) of the sine of a known frequency in a curve, by least squares over whole periods away from the ends. */
function sineIn(curve: Float64Array, hz: number, phase = 0.37): { readonly sizeDeg: number; readonly lateS: number } {
  const period = FPS / hz;
  const from = Math.ceil(period);
  const count = Math.floor(Math.floor((curve.length - 2 * from) / period) * period);
  let mean = 0;
  for (let k = from; k < from + count; k++) mean += curve[k]! / count;
  let c = 0;
  let s = 0;
  for (let k = from; k < from + count; k++) {
    c += (curve[k]! - mean) * Math.cos((2 * Math.PI * hz * k) / FPS - phase);
    s += (curve[k]! - mean) * Math.sin((2 * Math.PI * hz * k) / FPS - phase);
  }
  return { sizeDeg: (2 * Math.hypot(c, s)) / count, lateS: Math.atan2(s, c) / (2 * Math.PI * hz) };
}

/** Frames for about twelve periods, whole ones, at least five seconds. */
const framesFor = (hz: number): number => Math.round(Math.max(5, 12 / hz) * FPS);

/** Part of a clean sine of ±10° that is left. */
export function gain(way: Way, hz: number): number {
  return sineIn(smoothedElbow({ frames: framesFor(hz), flexionDeg: sine(hz, 10) }, way), hz).sizeDeg / 10;
}

/** How late a trembling sine comes, milliseconds, mean over seeds; and the chance left in that mean (one sigma). */
export function lag(way: Way, hz: number, halfDeg: number): { readonly ms: number; readonly chanceMs: number } {
  const late = Array.from({ length: SEEDS }, (_, i) => 1000 * sineIn(
    smoothedElbow({ frames: framesFor(hz), flexionDeg: sine(hz, halfDeg), noise: () => 1, seed: i + 1 }, way), hz,
  ).lateS);
  const ms = late.reduce((sum, v) => sum + v, 0) / SEEDS;
  return { ms, chanceMs: rms(late.map((v) => v - ms)) / Math.sqrt(SEEDS) };
}

/** Frames between a true extreme of a clean sine and the top of the parabola through the three highest frames; the worst of all. */
export function extremeOffFrames(way: Way, hz: number, halfDeg: number): number {
  const curve = smoothedElbow({ frames: framesFor(hz), flexionDeg: sine(hz, halfDeg) }, way);
  let worst = 0;
  for (let half = 2; ; half++) {
    const truth = ((half * Math.PI + 0.37) / (2 * Math.PI * hz)) * FPS;
    if (truth > curve.length - FPS / hz) return worst;
    const sign = half % 2 === 0 ? 1 : -1;
    let k = Math.round(truth) - 2;
    for (let i = k; i <= Math.round(truth) + 2; i++) if (sign * curve[i]! > sign * curve[k]!) k = i;
    const [a, b, c] = [curve[k - 1]!, curve[k]!, curve[k + 1]!];
    worst = Math.max(worst, Math.abs(k + (a - c) / (2 * (a - 2 * b + c)) - truth));
  }
}

/**
 * How a hold trembles and drifts, degrees. Jitter: RMS of the second difference over √6, which for white noise is its own
 * RMS, so that unsmoothed frames have TREMBLE_DEG. Drift: RMS off the true angle.
 */
export function hold(way: Way): { readonly jitterDeg: number; readonly driftDeg: number } {
  const bends: number[] = [];
  const offs: number[] = [];
  for (let seed = 1; seed <= SEEDS; seed++) {
    const curve = smoothedElbow({ frames: 150, flexionDeg: () => MIDDLE_DEG, noise: () => 1, seed }, way);
    for (let k = 20; k < 130; k++) {
      bends.push(curve[k + 1]! - 2 * curve[k]! + curve[k - 1]!);
      offs.push(curve[k]! - MIDDLE_DEG);
    }
  }
  return { jitterDeg: rms(bends) / Math.sqrt(6), driftDeg: rms(offs) };
}

/**
 * Error in the first and last frame, degrees: worst of a clean move that is cut off in full swing, and RMS of a trembling
 * hold.
 */
export function ends(way: Way): { readonly cutMoveDeg: number; readonly holdDeg: number } {
  let cutMoveDeg = 0;
  for (let i = 0; i < 16; i++) {
    const flexion = sine(1, 20, (i * Math.PI) / 8);
    const curve = smoothedElbow({ frames: 90, flexionDeg: flexion }, way);
    for (const k of [0, 89]) cutMoveDeg = Math.max(cutMoveDeg, Math.abs(curve[k]! - flexion(k / FPS)));
  }
  const offs: number[] = [];
  for (let seed = 1; seed <= 10 * SEEDS; seed++) {
    const curve = smoothedElbow({ frames: 60, flexionDeg: () => MIDDLE_DEG, noise: () => 1, seed }, way);
    offs.push(curve[0]! - MIDDLE_DEG, curve[59]! - MIDDLE_DEG);
  }
  return { cutMoveDeg, holdDeg: rms(offs) };
}

/** Worst error within a gap of 0.2 s (bridged by PCHIP, as gaps are) in a clean 1 Hz sine of ±20°, wherever in it the gap lies, degrees. */
export function gap(way: Way): number {
  let worst = 0;
  for (let i = 0; i < 16; i++) {
    const flexion = sine(1, 20, (i * Math.PI) / 8);
    const seen = Array.from({ length: 90 }, (_, k) => k).filter((k) => k < 42 || k > 46);
    const bridged = pchip(seen.map((k) => k / FPS), seen.map((k) => flexion(k / FPS)), Array.from({ length: 90 }, (_, k) => k / FPS));
    const curve = smoothedElbow({
      frames: 90, flexionDeg: flexion, weight: (k) => (k < 42 || k > 46 ? 1 : 0), bridgedDeg: (k) => bridged[k]!,
    }, way);
    for (let k = 40; k <= 48; k++) worst = Math.max(worst, Math.abs(curve[k]! - flexion(k / FPS)));
  }
  return worst;
}

/** RMS error, degrees, of a 1 Hz sine of ±20° over half a second in which frames tremble five times as much and are half seen (visibility 0.45). */
export function badlySeen(way: Way): number {
  const offs: number[] = [];
  const bad = (k: number): boolean => k >= 40 && k < 55;
  for (let seed = 1; seed <= SEEDS; seed++) {
    const flexion = sine(1, 20, seed);
    const curve = smoothedElbow({
      frames: 100, flexionDeg: flexion, noise: (k) => (bad(k) ? 5 : 1), seed, weight: (k) => (bad(k) ? 0.45 : 0.95),
    }, way);
    for (let k = 40; k < 55; k++) offs.push(curve[k]! - flexion(k / FPS));
  }
  return rms(offs);
}
