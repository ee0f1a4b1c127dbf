/**
 * A made-up elbow as the smoothers get it: three points over time, trembling as measured landmarks do, and its angle read
 * off again after smoothing. Everything in the plane; one number to know the truth of.
 */
import { planSmoothing, type Smoother, smoothSeries } from '../../src/motion/smoothing.ts';

export interface Way {
  readonly smoother: Smoother;
  /** 0 leaves everything as it is. */
  readonly cutoffHz: number;
}

export const FPS = 30;
const UPPER_M = 0.28;
const FOREARM_M = 0.25;

/** RMS of the elbow's angle in single frames of a hold, degrees: what single frames of footage tremble by (lab measurement on rendered figures, November 2026). */
export const TREMBLE_DEG = 0.49;

/**
 * Noise of each coordinate that makes the angle of an elbow bent by 60° tremble so: σ·√(2/a² + 2/b² + 2·cos 60°/(a·b)), as
 * the point between the bones turns both of them.
 */
export const TREMBLE_M = ((TREMBLE_DEG * Math.PI) / 180)
  / Math.sqrt(2 * UPPER_M ** -2 + 2 * FOREARM_M ** -2 + 1 / (UPPER_M * FOREARM_M));

/** Repeatable normal numbers (mulberry32, Box & Muller). */
export function normals(seed: number): () => number {
  let state = seed >>> 0;
  const uniform = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
  return () => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
}

export interface Elbow {
  readonly frames: number;
  /** True flexion, degrees, at a time in seconds. */
  readonly flexionDeg: (timeS: number) => number;
  /** Noise in multiples of {@link TREMBLE_M}, frame by frame. */
  readonly noise?: (frame: number) => number;
  readonly seed?: number;
  /** How surely each frame is seen, 0..1; 0 is a gap, whose points lie on the curve bridged over it (given in `bridgedDeg`). */
  readonly weight?: (frame: number) => number;
  readonly bridgedDeg?: (frame: number) => number;
}

/** The flexion in every frame after smoothing, degrees, clockwise turns negative. */
export function smoothedElbow({ frames, flexionDeg, noise = () => 0, seed = 1, weight, bridgedDeg }: Elbow, { smoother, cutoffHz }: Way): Float64Array {
  const random = normals(seed);
  const points = new Float64Array(frames * 9);
  for (let k = 0; k < frames; k++) {
    const gap = weight?.(k) === 0 && bridgedDeg !== undefined;
    const angle = ((gap ? bridgedDeg(k) : flexionDeg(k / FPS)) * Math.PI) / 180;
    points.set([0, 0, 0, 0, -UPPER_M, 0, FOREARM_M * Math.sin(angle), -UPPER_M - FOREARM_M * Math.cos(angle), 0], k * 9);
    const size = gap ? 0 : noise(k) * TREMBLE_M;
    for (let c = 0; c < 9; c++) points[k * 9 + c]! += size * random();
  }
  const timesS = Float64Array.from({ length: frames }, (_, k) => k / FPS);
  const plan = planSmoothing(timesS, [{ from: 0, to: frames - 1 }], cutoffHz, smoother);
  const weights = weight === undefined ? null : Float64Array.from({ length: frames }, (_, k) => weight(k));
  for (let p = 0; p < 3; p++) smoothSeries(plan, points, 9, p * 3, 3, weights);
  return Float64Array.from({ length: frames }, (_, k) => {
    const at = k * 9;
    const [ux, uy] = [points[at + 3]! - points[at]!, points[at + 4]! - points[at + 1]!];
    const [vx, vy] = [points[at + 6]! - points[at + 3]!, points[at + 7]! - points[at + 4]!];
    return (Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy) * 180) / Math.PI;
  });
}
