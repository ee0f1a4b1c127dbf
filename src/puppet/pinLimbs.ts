/**
 * Hands that hold on to a point of the set: the limb is solved so that the pinned point stays where it was put, over a span
 * of the take, and goes there and comes away over a few steps. The hand keeps the performer's turn of the wrist.
 */
import { add, readVec3, scale, subtract, type Vec3 } from '../numeric/vector3.ts';
import type { CompleteArmature } from './complete.ts';
import { emptyStance, forward, pointOn, skeletonOf } from './kinematics.ts';
import { placeOn } from './limb.ts';
import { FLAG_PIN_SHORT } from './puppetPoses.ts';
import type { Pin } from './puppetSettings.ts';
import { LimbReacher } from './reachLimb.ts';

const MISS_MM = 0.5;

/**
 * @param timesS `[N]` moments of the take at the steps
 * @param rootMm `[N·3]`, NaN where missing
 * @param rotations `[N·P·4]`, changed in place. @param flags `[N·P]`, FLAG_PIN_SHORT added
 */
export function pinLimbs(
  armature: CompleteArmature, pins: readonly Pin[], timesS: Float64Array, rootMm: Float64Array, rotations: Float64Array, flags: Uint8Array,
): void {
  const skeleton = skeletonOf(armature);
  const width = skeleton.count;
  const count = timesS.length;
  const stance = emptyStance(skeleton);
  const known = (s: number): boolean => !Number.isNaN(rootMm[s * 3]!) && !Number.isNaN(rotations[s * width * 4]!);
  for (const pin of pins) {
    const bone = armature.bones.findIndex(({ name }) => name === pin.bone);
    if (bone < 0) continue;
    const first = timesS.findIndex((t, s) => t >= pin.fromS && t <= pin.toS && known(s));
    if (first < 0) continue;
    let last = first;
    while (last + 1 < count && timesS[last + 1]! <= pin.toS && known(last + 1)) last++;
    const point = placeOn(armature, bone, pin.at);
    const reacher = new LimbReacher(armature, bone, point);
    const where = (s: number): Vec3 => {
      forward(skeleton, rotations, s, readVec3(rootMm, s), stance);
      return pointOn(stance, bone, point);
    };
    const target: Vec3 = pin.targetMm ?? where(first);
    const ease = Math.floor(pin.easeSteps);
    for (let s = Math.max(0, first - ease); s <= Math.min(count - 1, last + ease); s++) {
      if (!known(s)) continue;
      const away = s < first ? first - s : s > last ? s - last : 0;
      const u = 1 - away / (ease + 1);
      const share = u * u * (3 - 2 * u);
      const now = where(s);
      const goal = add(now, scale(subtract(target, now), share));
      const { missMm } = reacher.reach(rotations, s, readVec3(rootMm, s), goal, null);
      if (away === 0 && missMm > MISS_MM) for (const p of reacher.limb.all) flags[s * width + p]! |= FLAG_PIN_SHORT;
    }
  }
}
