/** Says what would hold steps that no change within the limits brings to their margin. */
import { wayOf } from '../words.ts';
import { facingDegOf, wayAsItFaces } from './asItFaces.ts';
import type { CorrectionAsk, CorrectionSources } from './correctionShapes.ts';
import { whatHolds } from './whatHolds.ts';

export interface CannotHold {
  /** The largest margin that was found, in a plan that was judged with it, mm. */
  readonly reachableMm: number;
  readonly sentence: string;
  /** The foot whose tie-down has to hold least; `null` where none that stands would hold it. N: its pull. */
  readonly tieDown: string | null;
  readonly tieDownN: number | null;
  /** The bone nearest to the centre of mass: where a rig turns the puppet least. N: the level push there. */
  readonly rigAt: string;
  readonly rigN: number;
  /** Which way the rig pushes: 0 forward (X), 90 to the left of the picture (Z). */
  readonly rigTowardDeg: number;
  /** Step of which the forces are told, from 0; what is missing there to the wanted margin about the edge over which it would go, N·mm. */
  readonly worstStep: number;
  readonly momentNmm: number;
}

/** @param span steps with a known margin. @param why what is in the way, a sentence */
export function cannotHold(sources: CorrectionSources, { marginMm }: CorrectionAsk, span: readonly number[], reachableMm: number, why: string): CannotHold {
  const { balance, moved, armature } = sources;
  const { step, towardDeg, momentNmm, foot, rigAt, pushN } = whatHolds(sources, span, marginMm);
  const facing = facingDegOf(moved.rotations, armature.joints.length, step);
  const away = towardDeg > 0 ? towardDeg - 180 : towardDeg + 180;
  const now = span.reduce((least, s) => Math.min(least, balance.standMm[s]!), Infinity);
  const tie = foot === null
    ? 'No foot that stands there could be tied down to hold it.'
    : `A tie-down under the ${spoken(foot.name)} would hold ${foot.everywhere ? 'it' : `step ${step + 1}`} with ${newtons(foot.pullN)}.`;
  const rig = Number.isNaN(pushN)
    ? `A rig would have to carry it near its centre of mass: at the ${spoken(rigAt)}.`
    : `Or a rig near the centre of mass, at the ${spoken(rigAt)}, pushes ${wayAsItFaces(away, facing)} (${wayOf(away)!} on the set) with ${newtons(pushN)}.`;
  return {
    reachableMm, tieDown: foot?.name ?? null, tieDownN: foot?.pullN ?? null, rigAt, rigN: pushN, rigTowardDeg: away, worstStep: step, momentNmm,
    sentence: `${why} The best that was found is ${mm(reachableMm)} of ${mm(marginMm)} (now ${mm(now)}). `
      + `At step ${step + 1} it goes ${wayAsItFaces(towardDeg, facing)}: ${momentNmm.toFixed(1)} N·mm about that edge are missing. ${tie} ${rig} Estimates: take a multiple.`,
  };
}

function mm(value: number): string {
  return `${value < 0 ? '\u2212' : ''}${Math.abs(value).toFixed(1)} mm`;
}

function newtons(value: number): string {
  return value < 0.095 ? `${Math.max(0.01, value).toFixed(2)} N` : `${value.toFixed(1)} N`;
}

/** A name such as `leftFoot` as people say it. */
function spoken(name: string): string {
  return name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
}
