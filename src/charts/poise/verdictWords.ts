/** What a step's balance says, in words a hand can act on. */
import type { Balance, Verdict } from '../../balance/balance.ts';
import { wayAsItFaces } from '../../balance/correct/asItFaces.ts';
import { figure, jointWords, signedFigure } from '../figures.ts';
import { verdictOf } from './verdictSigns.ts';

export interface SaidVerdict {
  readonly verdict: Verdict;
  /** A plain word: "holds", "needs a tie-down", "falls forward". */
  readonly word: string;
  /** "+4.2 ± 3.1 mm, 0.33 of the foot's width"; a dash where nothing is known. */
  readonly figures: string;
}

function word(verdict: Verdict, way: string, moving: boolean): string {
  switch (verdict) {
    case 'holds': return moving ? 'looks right' : 'holds';
    case 'marginal': return `marginal, ${way}`;
    case 'tied': return 'held by a tie-down';
    case 'falls': return moving ? `would fall ${way}` : `needs a tie-down: falls ${way}`;
    case 'in the air': return 'in the air';
    case 'not known': return 'not known';
    case 'caught': return 'a stride: the next foot catches it';
  }
}

/** @param facingDeg which way the puppet faces at the step, degrees from X toward Z */
export function verdictsAt(balance: Balance, step: number, facingDeg: number): { readonly stand: SaidVerdict; readonly move: SaidVerdict } {
  const said = (index: number, mm: number, sigma: number, share: number, towardDeg: number, moving: boolean): SaidVerdict => {
    const way = Number.isNaN(towardDeg) ? '' : wayAsItFaces(towardDeg, facingDeg);
    const verdict = verdictOf(index);
    const known = Number.isFinite(mm);
    return {
      verdict, word: word(verdict, way, moving),
      figures: known ? `${signedFigure(mm, 1)} ± ${figure(sigma, 1)} mm, ${signedFigure(share, 2)} of the foot’s width` : '–',
    };
  };
  return {
    stand: said(balance.standVerdict[step]!, balance.standMm[step]!, balance.marginSigmaMm[step]!, balance.standShare[step]!, balance.towardDeg[step]!, false),
    move: said(balance.moveVerdict[step]!, balance.moveMm[step]!, balance.moveSigmaMm[step]!, balance.moveShare[step]!, balance.moveTowardDeg[step]!, true),
  };
}

/** A note with the names of bones as people say them: "rightFoot was hidden" is "Right foot was hidden". */
export function noteWords(note: string, names: readonly string[]): string {
  const said = names.reduce((words, name) => words.replace(new RegExp(`\\b${name.replace(/[^\w]/g, '\\$&')}\\b`, 'g'), jointWords(name)), note);
  return said.charAt(0).toUpperCase() + said.slice(1);
}
