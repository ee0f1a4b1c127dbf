/**
 * One number for each joint at each moment, to be read, charted and set by hand.
 */
import { FLEXION_SENSE, type JointName } from '../motion/joints.ts';
import { angleOf, readQuat, twistAngle } from '../numeric/quaternion.ts';
import { unwrap } from '../numeric/unwrap.ts';
import type { PuppetPoses } from '../puppet/applyArmature.ts';

export const DEG_PER_RAD = 180 / Math.PI;

/**
 * Angles in degrees `[N·P]`, NaN where missing.
 *
 * Hinge: turn about Z, positive in the sense of flexion for elbows and knees, of the right-hand rule for all others
 * (forward for hips, shoulders and wrists, toes up for ankles, backward for the trunk and head). Swivel: turn about Y by
 * the right-hand rule. Both go on through 180° without a jump. Ball: size of the turn from rest, 0..180.
 */
export function jointAngles(poses: PuppetPoses): Float64Array {
  const width = poses.joints.length;
  const count = width === 0 ? 0 : poses.state.length / width;
  const out = new Float64Array(count * width);
  poses.joints.forEach(({ name, kind }, p) => {
    if (kind === 'ball') {
      for (let s = 0; s < count; s++) out[s * width + p] = angleOf(readQuat(poses.rotations, s * width + p)) * DEG_PER_RAD;
      return;
    }
    const axis = kind === 'hinge' ? 3 : 2;
    const sense = hingeSense(name, kind);
    const turns = Float64Array.from({ length: count }, (_, s) => twistAngle(readQuat(poses.rotations, s * width + p), axis));
    unwrap(turns).forEach((turn, s) => {
      // + 0 turns a minus zero into a plain one
      out[s * width + p] = sense * turn * DEG_PER_RAD + 0;
    });
  });
  return out;
}

/** +1 where a positive angle is a right-handed turn about the joint's axis, -1 where it is a left-handed one. */
export function hingeSense(name: JointName, kind: 'hinge' | 'swivel' | 'ball'): 1 | -1 {
  return kind === 'hinge' ? FLEXION_SENSE[name] ?? 1 : 1;
}
