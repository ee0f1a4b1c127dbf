/** A person's word about standing feet, as the fit takes it. */
import type { ContactOverride } from '../fit/contacts.ts';
import type { ContactWord } from './corrections.ts';
import { framesIn } from './moments.ts';

/** Nothing said: leaves the finding alone. */
const UNSAID = -1;

/** Foot by foot and frame by frame; where words overlap the later one in the list counts. */
export function contactOverride(timesS: Float64Array, words: readonly ContactWord[]): ContactOverride {
  const said = { left: new Float64Array(timesS.length).fill(UNSAID), right: new Float64Array(timesS.length).fill(UNSAID) };
  for (const { foot, fromS, toS, stands } of words) {
    const span = framesIn(timesS, fromS, toS);
    if (span !== null) said[foot].fill(stands ? 1 : 0, span[0], span[1] + 1);
  }
  return said;
}
