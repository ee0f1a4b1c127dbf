/**
 * Motions whose moves, pauses and leads are known, with noise like that of a real track: angles tremble like white noise from frame to
 * frame, wander slowly where that is asked for, and then go through the program's own smoother.
 */
import { minimumJerk } from '../../src/numeric/minimumJerk.ts';
import { JOINT, JOINT_COUNT, type JointName } from '../../src/motion/joints.ts';
import type { Motion } from '../../src/motion/motion.ts';
import { planSmoothing, smoothSeries } from '../../src/motion/smoothing.ts';

export interface TrueMove {
  readonly startS: number;
  readonly endS: number;
  /** Angle that it adds, degrees. */
  readonly byDeg: number;
}

export interface SyntheticLimb {
  /** Turned about Z. */
  readonly joint: JointName;
  readonly moves: readonly TrueMove[];
}

export interface SyntheticSettings {
  readonly lengthS: number;
  readonly framesPerS: number;
  /** One sigma of the tremble of single frames, degrees. */
  readonly noiseDeg: number;
  /** One sigma of a slow wandering on top, degrees: noise that forgets itself in WANDERS_S (first-order, white noise behind one integrator that leaks). */
  readonly wanderDeg?: number;
  readonly seed: number;
  /** `null`: nothing is smoothed, as of frames too far apart for it. */
  readonly cutoffHz?: number | null;
}

/** In this time the wandering keeps 1/e of itself, seconds. Our choice: most of its power lies below 1 Hz, where a smoother leaves it. */
const WANDERS_S = 0.3;

/** Park & Miller's generator (1988, from memory): small, and the same everywhere. */
export function uniform(seed: number): () => number {
  let state = (seed % 2147483646) + 1;
  return () => {
    state = (state * 48271) % 2147483647;
    return state / 2147483647;
  };
}

/** Angle of a limb's joint: minimum-jerk moves one after the other. */
export function trueAngleDeg(moves: readonly TrueMove[], t: number): number {
  return moves.reduce((sum, { startS, endS, byDeg }) => sum + byDeg * minimumJerk((t - startS) / (endS - startS)), 0);
}

export function syntheticMotion(limbs: readonly SyntheticLimb[], { lengthS, framesPerS, noiseDeg, wanderDeg = 0, seed, cutoffHz = 3.5 }: SyntheticSettings): Motion {
  const frames = Math.round(lengthS * framesPerS) + 1;
  const timesS = Float64Array.from({ length: frames }, (_, t) => t / framesPerS);
  const random = uniform(seed);
  const normal = (): number => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
  const rotations = new Float64Array(frames * JOINT_COUNT * 4);
  for (let i = 0; i < rotations.length; i += 4) rotations[i] = 1;
  const plan = cutoffHz === null ? null : planSmoothing(timesS, [{ from: 0, to: frames - 1 }], cutoffHz, 'penalised');
  const keeps = Math.exp(-1 / (framesPerS * WANDERS_S));
  for (const joint of Object.keys(JOINT) as JointName[]) {
    const own = limbs.find((limb) => limb.joint === joint)?.moves ?? [];
    const angle = Float64Array.from({ length: frames }, (_, t) => trueAngleDeg(own, timesS[t]!) + noiseDeg * normal());
    if (wanderDeg > 0) {
      let wander = wanderDeg * normal();
      angle.forEach((_, t) => {
        angle[t]! += wander;
        wander = keeps * wander + Math.sqrt(1 - keeps ** 2) * wanderDeg * normal();
      });
    }
    if (plan !== null) smoothSeries(plan, angle, 1, 0, 1);
    angle.forEach((deg, t) => {
      const at = (t * JOINT_COUNT + JOINT[joint]) * 4;
      const half = (deg * Math.PI) / 360;
      rotations[at] = Math.cos(half);
      rotations[at + 3] = Math.sin(half);
    });
  }
  return {
    timesS, rotations,
    rootM: new Float64Array(frames * 3),
    confidence: new Float32Array(frames * JOINT_COUNT).fill(1),
    state: new Uint8Array(frames * JOINT_COUNT),
    errorDeg: new Float32Array(frames * JOINT_COUNT).fill(5),
    turnErrorDeg: new Float32Array(frames * JOINT_COUNT).fill(5),
    unsure: new Uint8Array(frames * JOINT_COUNT),
    contacts: new Uint8Array(frames * 2).fill(1),
    observable: new Uint8Array(JOINT_COUNT).fill(1),
    legLengthM: 0.92, fitted: true, usedCutoffHz: cutoffHz, warnings: [],
  };
}
