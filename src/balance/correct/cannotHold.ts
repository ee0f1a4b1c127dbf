/** What would hold a pose that no change within the limits brings into balance. */
import { emptyStance, forward, skeletonOf } from '../../puppet/kinematics.ts';
import { marginOf } from '../hull.ts';
import { placeOnBone } from '../placeOnBone.ts';
import type { CorrectionAsk, CorrectionSources } from './correctionShapes.ts';

export interface CannotHold {
  /** The largest margin that can be had, mm. */
  readonly reachableMm: number;
  readonly sentence: string;
  /** The foot whose tie-down would hold it; `null` where none stands. */
  readonly tieDown: string | null;
  /** The bone nearest to the centre of mass: where a rig takes least force. */
  readonly rigAt: string;
}

export function cannotHold({ balance, armature, moved }: Pick<CorrectionSources, 'balance' | 'armature' | 'moved'>, { marginMm }: CorrectionAsk, span: readonly number[], reachableMm: number, why: string): CannotHold {
  const worst = span.reduce((least, s) => (balance.standMm[s]! < balance.standMm[least]! ? s : least), span[0]!);
  const width = balance.touchNames.length;
  const feet = moved.feet.map(({ name }) => name).filter((name) => {
    const k = balance.touchNames.indexOf(name);
    return k >= 0 && balance.touching[worst * width + k] === 1;
  });
  const outline = balance.support[worst]!;
  const margin = outline.length >= 6 ? marginOf(outline, balance.massMm[worst * 3]!, balance.massMm[worst * 3 + 2]!) : null;
  const tieDown = feet[0] ?? null;
  const rigAt = boneAtMass({ balance, armature, moved }, worst);
  return {
    reachableMm, tieDown, rigAt,
    sentence: `${why} The best that can be had is ${reachableMm.toFixed(1)} mm of ${marginMm.toFixed(1)} mm${margin === null ? '' : ` (now ${margin.distance.toFixed(1)} mm)`}. `
      + `${tieDown === null ? 'No foot stands that could be tied down.' : 'A tie-down under the standing foot would hold it.'} A rig takes least force near the centre of mass: at ${rigAt}.`,
  };
}

/** The bone whose middle lies nearest to the centre of mass at a step. */
function boneAtMass({ balance: { massMm }, armature, moved: { rotations, rootMm } }: Pick<CorrectionSources, 'balance' | 'armature' | 'moved'>, step: number): string {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  forward(skeleton, rotations, step, [rootMm[step * 3]!, rootMm[step * 3 + 1]!, rootMm[step * 3 + 2]!], stance);
  const place = new Float64Array(3);
  const apart = armature.bones.map(({ along, lengthMm }, bone) => {
    const half = lengthMm / 2;
    placeOnBone(stance, bone, along[0] * half, along[1] * half, along[2] * half, place);
    return Math.hypot(place[0]! - massMm[step * 3]!, place[1]! - massMm[step * 3 + 1]!, place[2]! - massMm[step * 3 + 2]!);
  });
  return armature.bones[apart.indexOf(Math.min(...apart))]!.name;
}
