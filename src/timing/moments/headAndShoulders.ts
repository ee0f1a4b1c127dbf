/** Whether the head goes with the shoulders: both as they turn about the vertical. */
import { JOINT, JOINT_COUNT } from '../../motion/joints.ts';
import { multiply, readQuat, rotate, type Quat } from '../../numeric/quaternion.ts';
import { nearestTurn } from '../../numeric/unwrap.ts';
import type { Poses } from '../poses.ts';
import { lagBetween, type Lag } from './lag.ts';

/**
 * N steps.
 * - `headDeg[N]`, `shouldersDeg[N]` which way they face about the vertical, degrees from where X points, positive to the
 *   performer's left, going on through 180° without a jump; NaN where missing or where it points straight up or down.
 * - `apart[N]` 1 where the head turns and the shoulders stay, 2 the other way round, 0 else (turns since the step before).
 */
export interface HeadAndShoulders {
  readonly headDeg: Float64Array;
  readonly shouldersDeg: Float64Array;
  readonly apart: Uint8Array;
  /** 0..1: part of their turning that they share; NaN where neither turns. */
  readonly together: number;
  /** Steps by which the shoulders come after the head; `null` where that can't be told. */
  readonly lag: Lag | null;
}

/** A turn of this much in a step is one, and of this part of the other's is none. Our choices. */
const TURNS_DEG = 1;
const STAYS_PART = 0.25;
const MOST_LAG_STEPS = 8;
const DEG_PER_RAD = 180 / Math.PI;
const CHEST: readonly number[] = [JOINT.pelvis, JOINT.spine, JOINT.chest];
const HEAD: readonly number[] = [...CHEST, JOINT.neck, JOINT.head];

/** @param from,to steps from 0, both included, that `together` and `lag` are told of */
export function headAndShoulders({ rotations, timesS }: Pick<Poses, 'rotations' | 'timesS'>, from = 0, to = timesS.length - 1): HeadAndShoulders {
  const count = timesS.length;
  const headDeg = facing(rotations, count, HEAD);
  const shouldersDeg = facing(rotations, count, CHEST);
  const apart = new Uint8Array(count);
  const [headTurn, chestTurn] = [turns(headDeg), turns(shouldersDeg)];
  let [shared, whole] = [0, 0];
  for (let s = 0; s < count; s++) {
    const [h, c] = [headTurn[s]!, chestTurn[s]!];
    if (Number.isNaN(h) || Number.isNaN(c)) continue;
    if (Math.abs(h) >= TURNS_DEG && Math.abs(c) < STAYS_PART * Math.abs(h)) apart[s] = 1;
    else if (Math.abs(c) >= TURNS_DEG && Math.abs(h) < STAYS_PART * Math.abs(c)) apart[s] = 2;
    if (s < from || s > to) continue;
    whole += Math.max(Math.abs(h), Math.abs(c));
    if (h * c > 0) shared += Math.min(Math.abs(h), Math.abs(c));
  }
  return {
    headDeg, shouldersDeg, apart, together: whole > TURNS_DEG ? shared / whole : Number.NaN,
    lag: lagBetween(headTurn.slice(from, to + 1), chestTurn.slice(from, to + 1), MOST_LAG_STEPS),
  };
}

function facing(rotations: Float64Array, count: number, chain: readonly number[]): Float64Array {
  const out = new Float64Array(count).fill(Number.NaN);
  let last = 0;
  for (let s = 0; s < count; s++) {
    const q = chain.map((j) => readQuat(rotations, s * JOINT_COUNT + j)).reduce((a: Quat, b: Quat) => multiply(a, b));
    const [x, , z] = rotate(q, [1, 0, 0]);
    if (!(Math.hypot(x, z) > 0.1)) continue;
    const turned = nearestTurn(Math.atan2(-z, x), last);
    last = turned;
    out[s] = turned * DEG_PER_RAD;
  }
  return out;
}

function turns(deg: Float64Array): Float64Array {
  return deg.map((value, s) => (s === 0 ? Number.NaN : value - deg[s - 1]!));
}
