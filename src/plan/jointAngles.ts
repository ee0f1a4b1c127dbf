/**
 * One number for each joint at each moment, to be read, charted and set by hand.
 */
import { angleOf, readQuat } from '../numeric/quaternion.ts';
import { unwrap } from '../numeric/unwrap.ts';
import { turnsFreely } from '../puppet/armature.ts';
import type { PuppetPoses } from '../puppet/puppetPoses.ts';
import { angleAbout, DEG_PER_RAD } from '../puppet/turns.ts';

/**
 * Angles in degrees `[N·P]`, NaN where missing.
 *
 * Hinge, swivel and screw: turn about the joint's axis by the right-hand rule, going on through 180° without a jump (the
 * axis of a knee points left, so that bending counts positive). Ball and wire: size of the turn from rest, 0..180.
 */
export function jointAngles({ joints, rotations, state }: Pick<PuppetPoses, 'joints' | 'rotations' | 'state'>): Float64Array {
  const width = joints.length;
  const count = width === 0 ? 0 : state.length / width;
  const out = new Float64Array(count * width);
  joints.forEach(({ kind, axis }, p) => {
    if (turnsFreely(kind)) {
      for (let s = 0; s < count; s++) out[s * width + p] = angleOf(readQuat(rotations, s * width + p)) * DEG_PER_RAD;
      return;
    }
    const turns = Float64Array.from({ length: count }, (_, s) => angleAbout(readQuat(rotations, s * width + p), axis));
    unwrap(turns).forEach((turn, s) => {
      // + 0 turns a minus zero into a plain one
      out[s * width + p] = turn * DEG_PER_RAD + 0;
    });
  });
  return out;
}
