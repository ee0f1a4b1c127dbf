/** Where the middle of each touching sole is, for tie-downs. */
import type { CompleteArmature } from '../puppet/complete.ts';
import { emptyStance, forward, pointOn, skeletonOf } from '../puppet/kinematics.ts';
import type { SolePlace } from './hardware.ts';
import type { PosesOnSet } from './puppetMass.ts';
import type { Toucher } from './touching.ts';

/** For each step the feet that touch; empty where there is no pose. A tie-down is taken to sit in the middle of the sole's corners. */
export function solePlaces(armature: CompleteArmature, touchers: readonly Toucher[], touching: Uint8Array, { rotations, rootMm }: PosesOnSet): readonly (readonly SolePlace[])[] {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  const middles = touchers.map(({ outlineMm }): readonly [number, number, number] => {
    const n = outlineMm.length / 3;
    const mean = (c: number): number => {
      let sum = 0;
      for (let i = 0; i < n; i++) sum += outlineMm[i * 3 + c]!;
      return sum / n;
    };
    return [mean(0), mean(1), mean(2)];
  });
  return Array.from({ length: rootMm.length / 3 }, (_, s) => {
    if (Number.isNaN(rootMm[s * 3]!)) return [];
    let posed = false;
    return touchers.flatMap(({ name, bone, isFoot }, k) => {
      if (!isFoot || touching[s * touchers.length + k] !== 1) return [];
      if (!posed) forward(skeleton, rotations, s, [rootMm[s * 3]!, rootMm[s * 3 + 1]!, rootMm[s * 3 + 2]!], stance);
      posed = true;
      const [x, , z] = pointOn(stance, bone, middles[k]!);
      return [{ name, x, z }];
    });
  });
}
