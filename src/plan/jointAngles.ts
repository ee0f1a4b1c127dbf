/**
 * One number for each joint at each moment, to be read, charted and set by hand.
 */
import { angleOf, readQuat } from '../numeric/quaternion.ts';
import { nearestTurn } from '../numeric/unwrap.ts';
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
  const free = joints.map(({ kind }) => turnsFreely(kind));
  // moment by moment, as the rotations lie in memory; the last known turn of each joint, for the next to follow on
  const last = new Float64Array(width).fill(Number.NaN);
  for (let s = 0; s < count; s++) {
    for (let p = 0; p < width; p++) {
      const at = s * width + p;
      const q = readQuat(rotations, at);
      if (free[p] === true) {
        out[at] = angleOf(q) * DEG_PER_RAD;
        continue;
      }
      const turn = angleAbout(q, joints[p]!.axis);
      const near = last[p]!;
      const followed = Number.isNaN(near) ? turn : nearestTurn(turn, near);
      if (!Number.isNaN(followed)) last[p] = followed;
      // + 0 turns a minus zero into a plain one
      out[at] = followed * DEG_PER_RAD + 0;
    }
  }
  return out;
}
