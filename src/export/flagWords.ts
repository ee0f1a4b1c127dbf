/** Words for the flags of a joint in a file. */
import { FLAG_CLIPPED, FLAG_FOOT_SHORT, FLAG_LOST, FLAG_PIN_SHORT, FLAG_SPREAD } from '../puppet/puppetPoses.ts';

const WORDS = [
  [FLAG_CLIPPED, 'clipped'], [FLAG_SPREAD, 'spread'], [FLAG_LOST, 'lost'], [FLAG_FOOT_SHORT, 'foot out of reach'], [FLAG_PIN_SHORT, 'pin out of reach'],
] as const;

export type FlagWord = (typeof WORDS)[number][1];

/** @param flags FLAG_* bits of `puppet/puppetPoses.ts` */
export function flagWords(flags: number): readonly FlagWord[] {
  return WORDS.filter(([flag]) => (flags & flag) !== 0).map(([, word]) => word);
}
