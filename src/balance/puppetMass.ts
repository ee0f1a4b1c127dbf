/** The puppet's centre of mass at every step: its own bones' and what it carries. */
import type { CompleteArmature } from '../puppet/complete.ts';
import { emptyStance, forward, skeletonOf } from '../puppet/kinematics.ts';
import { placeOnBone } from './placeOnBone.ts';
import type { Prop } from './poiseSettings.ts';

/** N steps, P bones. */
export interface PosesOnSet {
  /** `[N·P·4]`; `[N·3]` start of the root bone, mm, NaN where there is no pose. */
  readonly rotations: Float64Array;
  readonly rootMm: Float64Array;
}

/** Masses fixed to bones: B of them. `[B]` bone, g; `[B·3]` place from the bone's start, in its axes, mm; `[B]` when, container seconds. */
export interface Weights {
  readonly bone: Int32Array;
  readonly massG: Float64Array;
  readonly atMm: Float64Array;
  readonly fromS: Float64Array;
  readonly toS: Float64Array;
}

/** The puppet's bones and its props; a prop whose bone the puppet doesn't have weighs nothing. */
export function weightsOf({ bones }: CompleteArmature, props: readonly Prop[]): Weights {
  const all = [
    ...bones.map(({ massG, massAt, lengthMm, along }, bone) => ({
      bone, massG, atMm: [along[0] * lengthMm * massAt, along[1] * lengthMm * massAt, along[2] * lengthMm * massAt], fromS: -Infinity, toS: Infinity,
    })),
    ...props.flatMap(({ bone: name, massG, atMm, fromS, toS }) => {
      const bone = bones.findIndex((one) => one.name === name);
      return bone < 0 ? [] : [{ bone, massG, atMm: [...atMm], fromS, toS }];
    }),
  ].filter(({ massG }) => massG > 0);
  return {
    bone: Int32Array.from(all, ({ bone }) => bone), massG: Float64Array.from(all, ({ massG }) => massG),
    atMm: Float64Array.from(all.flatMap(({ atMm }) => atMm)), fromS: Float64Array.from(all, ({ fromS }) => fromS), toS: Float64Array.from(all, ({ toS }) => toS),
  };
}

/**
 * - `massMm[N·3]` centre of mass on the set, NaN where there is no pose. `massG[N]` of puppet and props.
 */
export interface MassOnSet {
  readonly massMm: Float64Array;
  readonly massG: Float64Array;
}

/**
 * @param timesS `[N]` container seconds, for props
 */
export function massOnSet(armature: CompleteArmature, weights: Weights, { rotations, rootMm }: PosesOnSet, timesS: Float64Array): MassOnSet {
  const skeleton = skeletonOf(armature);
  const width = skeleton.count;
  const count = rootMm.length / 3;
  const stance = emptyStance(skeleton);
  const massMm = new Float64Array(count * 3).fill(Number.NaN);
  const massG = new Float64Array(count);
  const place = new Float64Array(3);
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(rootMm[s * 3]!) || Number.isNaN(rotations[s * width * 4]!)) continue;
    forward(skeleton, rotations, s, [rootMm[s * 3]!, rootMm[s * 3 + 1]!, rootMm[s * 3 + 2]!], stance);
    const at = timesS[s]!;
    let whole = 0;
    let sumX = 0;
    let sumY = 0;
    let sumZ = 0;
    for (let b = 0; b < weights.bone.length; b++) {
      if (at < weights.fromS[b]! || at > weights.toS[b]!) continue;
      const p = weights.bone[b]!;
      const m = weights.massG[b]!;
      placeOnBone(stance, p, weights.atMm[b * 3]!, weights.atMm[b * 3 + 1]!, weights.atMm[b * 3 + 2]!, place);
      whole += m;
      sumX += m * place[0]!;
      sumY += m * place[1]!;
      sumZ += m * place[2]!;
    }
    massG[s] = whole;
    if (!(whole > 0)) continue;
    massMm[s * 3] = sumX / whole;
    massMm[s * 3 + 1] = sumY / whole;
    massMm[s * 3 + 2] = sumZ / whole;
  }
  return { massMm, massG };
}
