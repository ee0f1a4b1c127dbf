/**
 * How far off an angle about one axis is that is taken out of the performer's turns.
 *
 * A joint's error speaks of where its bone points (`errorDeg`) and, apart, of the turn about the bone (`turnErrorDeg`); they are of
 * very different sizes. An angle about an axis takes of each what a small turn about such an axis does to it, to first order. For a joint
 * at rest that is the cosine (turn) and the sine (pointing) of the angle between axis and bone: a swivel along the bone has
 * the turn's error alone, a hinge square to it the pointing's. The farther the bone swings away from the axis of a swivel, the more of the
 * pointing comes in too, without bound toward half a turn, where a swivel's angle can't be told.
 */
import { JOINT_CLASS } from '../motion/trust/errorClasses.ts';
import { IDENTITY, multiply, readQuat, rotate, type Quat } from '../numeric/quaternion.ts';
import { cross, dot, length, type Vec3 } from '../numeric/vector3.ts';
import type { Poses } from '../timing/poses.ts';

/** No angle can be off by more, degrees: half a turn. */
const MOST_DEG = 180;

/**
 * The angle about `axis` of the twist of q = swing · twist, by a small turn put behind q: its gradient, a vector in the axes of the child.
 * For the identity it is the axis itself. Not finite at a swing of exactly half a turn.
 */
function angleGradient(q: Quat, axis: Vec3): Vec3 {
  const w = q[0];
  const v: Vec3 = [q[1], q[2], q[3]];
  const along = dot(v, axis);
  const square = cross(axis, v);
  const kept = w * w + along * along;
  return [0, 1, 2].map((k) => (w * w * axis[k]! + w * square[k]! + along * v[k]!) / kept) as unknown as Vec3;
}

/**
 * @param poses errors and rotations of the performer, as in Poses; `base` index of the moment's first joint
 * @param chain joints whose product `q` the angle is taken from, from the outermost carrier to the joint itself
 * @param axis unit vector, the same numbers in all axes at rest
 * @param carriedDeg `[J]`: of the joints of the chain is written what each one's error makes of the angle, one sigma, degrees, NaN where a joint has none
 * @returns the largest part of it that is a turn about a bone, degrees; 0 where none is
 */
export function writeAxisErrors(
  poses: Pick<Poses, 'rotations' | 'errorDeg' | 'turnErrorDeg'>, base: number, chain: readonly number[], q: Quat, axis: Vec3, carriedDeg: Float64Array,
): number {
  const gradient = angleGradient(q, axis);
  let after: Quat = IDENTITY;
  let mostTurn = 0;
  for (let i = chain.length - 1; i >= 0; i--) {
    const j = chain[i]!;
    // a turn behind this joint is seen from the end of the chain through the joints after it
    const own = rotate(after, gradient);
    const whole = length(own);
    const { bone } = JOINT_CLASS[j]!;
    const along = bone === null ? 0 : Math.abs(dot(own, bone));
    const turnDeg = along === 0 ? 0 : Math.min(MOST_DEG, along * poses.turnErrorDeg[base + j]!);
    const pointing = Math.sqrt(Math.max(0, whole * whole - along * along)) * poses.errorDeg[base + j]!;
    carriedDeg[j] = Number.isNaN(pointing) ? Number.NaN : Math.min(MOST_DEG, Math.sqrt(pointing * pointing + turnDeg * turnDeg));
    if (turnDeg > mostTurn) mostTurn = turnDeg;
    after = multiply(readQuat(poses.rotations, base + j), after);
  }
  return mostTurn;
}
