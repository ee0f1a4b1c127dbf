/** Which steps of a plan want somebody to think of balance while setting: their sign on the ladder, and the words for it. */
import type { Balance, Verdict } from '../../balance/balance.ts';
import { verdictOf } from './verdictSigns.ts';

export const BALANCE_MARKS = ['marginal', 'falls', 'tied', 'in the air'] as const satisfies readonly Verdict[];
/** Verdicts of standing that are drawn beside a step. */
export type BalanceMark = (typeof BALANCE_MARKS)[number];

export const BALANCE_MARK_WORDS: Readonly<Record<BalanceMark, string>> = {
  marginal: 'marginal balance',
  falls: 'would fall, needs a tie-down',
  tied: 'held by a tie-down',
  'in the air': 'in the air',
};

/** In a word or two, where room is short. */
export const BALANCE_MARK_SHORT: Readonly<Record<BalanceMark, string>> = { marginal: 'marginal', falls: 'falls', tied: 'tied down', 'in the air': 'in the air' };

/** How each sign looks, for a legend that is read. */
export const BALANCE_MARK_LOOKS: Readonly<Record<BalanceMark, string>> = {
  marginal: 'a block on its corner',
  falls: 'a full block that leans',
  tied: 'a full block with a peg',
  'in the air': 'a block over a line',
};

/** `undefined` where the step holds or was not judged: nothing is drawn there. @param step from 0 */
export function balanceMarkAt({ standVerdict }: Pick<Balance, 'standVerdict'>, step: number): BalanceMark | undefined {
  const index = standVerdict[step];
  return index === undefined ? undefined : BALANCE_MARKS.find((mark) => mark === verdictOf(index));
}

/** All signs in a sentence. */
export const BALANCE_LEGEND = `Balance at the step: ${BALANCE_MARKS.map((mark) => `${BALANCE_MARK_LOOKS[mark]}: ${BALANCE_MARK_WORDS[mark]}`).join('; ')}. No sign: it holds, or was not judged (Poise says which).`;
