/** How far joints turn from step to step, and where a changed plan turns one farther than the plan ever did. */
import type { CompleteArmature } from '../../puppet/complete.ts';
import { DEG_PER_RAD } from '../../puppet/turns.ts';

/** `[N·P·4]` of P joints. */
interface Turned {
  readonly rotations: Float64Array;
}

/** Angle between two unit quaternions at indices of their arrays, degrees; 0 where one is missing. */
export function turnBetween(a: Float64Array, i: number, b: Float64Array, j: number): number {
  const [aw, ax, ay, az] = [a[i * 4]!, a[i * 4 + 1]!, a[i * 4 + 2]!, a[i * 4 + 3]!];
  const [bw, bx, by, bz] = [b[j * 4]!, b[j * 4 + 1]!, b[j * 4 + 2]!, b[j * 4 + 3]!];
  // the vector part tells small angles, which the cosine alone would lose
  const x = bx * aw - bw * ax - by * az + bz * ay;
  const y = by * aw - bw * ay - bz * ax + bx * az;
  const z = bz * aw - bw * az - bx * ay + by * ax;
  const turn = 2 * Math.atan2(Math.sqrt(x * x + y * y + z * z), Math.abs(aw * bw + ax * bx + ay * by + az * bz)) * DEG_PER_RAD;
  return Number.isNaN(turn) ? 0 : turn;
}

/** `[N·P]` turn of each joint from the step before, degrees; 0 at the first. */
export function stepTurnsOf({ rotations }: Turned, width: number): Float64Array {
  const out = new Float64Array(rotations.length / 4);
  for (let at = width; at < out.length; at++) out[at] = turnBetween(rotations, at, rotations, at - width);
  return out;
}

/** `[P]` the largest turn of each joint from step to step in the whole plan, degrees; not less than its smallest move. */
export function largestSteps(stepTurns: Float64Array, { joints }: CompleteArmature): Float64Array {
  const out = Float64Array.from(joints, ({ smallestDeg }) => smallestDeg);
  for (let at = 0; at < stepTurns.length; at++) out[at % out.length] = Math.max(out[at % out.length]!, stepTurns[at]!);
  return out;
}

/** A joint that turns farther into a step than it may. */
export interface Jump {
  readonly step: number;
  readonly joint: number;
  readonly overDeg: number;
}

/** Where a changed plan's joints turn farther into steps `from` to `to` than `largest` by more than `hairDeg`. */
export function jumpsOf({ rotations }: Turned, largest: Float64Array, from: number, to: number, hairDeg: number): readonly Jump[] {
  const width = largest.length;
  const last = rotations.length / (4 * width) - 1;
  const out: Jump[] = [];
  for (let step = Math.max(1, from); step <= Math.min(last, to); step++) {
    for (let joint = 0; joint < width; joint++) {
      const overDeg = turnBetween(rotations, step * width + joint, rotations, (step - 1) * width + joint) - largest[joint]!;
      if (overDeg > hairDeg) out.push({ step, joint, overDeg });
    }
  }
  return out;
}
