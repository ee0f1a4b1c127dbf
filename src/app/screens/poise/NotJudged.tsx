/** Where no step of a plan could be judged, nothing is said to hold, and why stands in its place. */
import type { ReactElement } from 'react';
import { verdictOf } from '../../../charts/poise/verdictSigns.ts';
import { noteWords } from '../../../charts/poise/verdictWords.ts';
import type { Plan } from '../../../plan/plan.ts';
import { useArmature } from '../../state/puppetEdits.ts';

export function isJudged({ balance: { standVerdict } }: Plan): boolean {
  return standVerdict.some((index) => verdictOf(index) !== 'not known');
}

export function NotJudged({ plan }: { readonly plan: Plan }): ReactElement {
  return (
    <>
      <p>No step could be judged.</p>
      <Notes plan={plan} />
    </>
  );
}

/** What could not be judged, and why, one paragraph each. */
export function Notes({ plan: { balance } }: { readonly plan: Plan }): ReactElement {
  const names = useArmature().bones.map(({ name }) => name);
  return <>{balance.notes.map((note) => <p key={note} className="hint">{noteWords(note, names)}</p>)}</>;
}
