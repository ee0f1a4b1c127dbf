/** What would hold a pose that no change within the limits brings into balance. */
import { marginOf } from '../hull.ts';
import type { CorrectionAsk, CorrectionSources } from './solveCorrection.ts';

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
  const heaviest = armature.bones.reduce((best, bone) => (bone.massG > best.massG ? bone : best), armature.bones[0]!);
  const tieDown = feet[0] ?? null;
  return {
    reachableMm, tieDown, rigAt: heaviest.name,
    sentence: `${why} The best that can be had is ${reachableMm.toFixed(1)} mm of ${marginMm.toFixed(1)} mm${margin === null ? '' : ` (now ${margin.distance.toFixed(1)} mm)`}. `
      + `${tieDown === null ? 'No foot stands that could be tied down.' : 'A tie-down under the standing foot would hold it.'} A rig takes least force where the weight is.`,
  };
}
