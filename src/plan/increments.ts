/**
 * What to move from one step to the next.
 */
import { conjugate, multiply, readQuat, rotationVector } from '../numeric/quaternion.ts';
import { length } from '../numeric/vector3.ts';
import { turnsFreely } from '../puppet/armature.ts';
import type { PuppetPoses } from '../puppet/puppetPoses.ts';
import { DEG_PER_RAD } from '../puppet/turns.ts';

/**
 * Increments of N steps, P joints, in degrees; meanings as in Plan.
 * - `incrementDeg[N·P]` signed for hinge and swivel (they add up to last angle minus first), the size of the turn for a ball.
 * - `turnDeg[N·P·3]` the increment as a rotation vector in the axes of the parent segment.
 *
 * At the first step both are 0. Where this step or the one before is missing they are NaN: how far to move is not known.
 *
 * @param angleDeg `[N·P]` of {@link jointAngles}
 */
export function increments(poses: PuppetPoses, angleDeg: Float64Array): { incrementDeg: Float64Array; turnDeg: Float64Array } {
  const width = poses.joints.length;
  const count = width === 0 ? 0 : angleDeg.length / width;
  const incrementDeg = new Float64Array(count * width);
  const turnDeg = new Float64Array(count * width * 3);
  for (let p = 0; p < width; p++) {
    const { kind, axis } = poses.joints[p]!;
    const free = turnsFreely(kind);
    for (let s = 0; s < count; s++) {
      const at = s * width + p;
      const before = at - width;
      const now = angleDeg[at]!;
      if (Number.isNaN(now) || (s > 0 && Number.isNaN(angleDeg[before]!))) {
        incrementDeg[at] = Number.NaN;
        turnDeg.fill(Number.NaN, at * 3, at * 3 + 3);
      } else if (s > 0 && free) {
        // new = turn · old, so that the turn is told in the axes of the parent
        const turn = rotationVector(multiply(readQuat(poses.rotations, at), conjugate(readQuat(poses.rotations, before))));
        incrementDeg[at] = length(turn) * DEG_PER_RAD;
        for (let c = 0; c < 3; c++) turnDeg[at * 3 + c] = turn[c as 0]! * DEG_PER_RAD;
      } else if (s > 0) {
        incrementDeg[at] = now - angleDeg[before]!;
        for (let c = 0; c < 3; c++) turnDeg[at * 3 + c] = axis[c]! * incrementDeg[at]! + 0;
      }
    }
  }
  return { incrementDeg, turnDeg };
}
