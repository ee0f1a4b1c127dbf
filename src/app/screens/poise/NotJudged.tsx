/** Where no step of a plan could be judged, nothing is said to hold, and why stands in its place. */
import type { ReactElement } from 'react';
import { verdictOf } from '../../../charts/poise/verdictSigns.ts';
import type { Plan } from '../../../plan/plan.ts';

export function isJudged({ balance: { standVerdict } }: Plan): boolean {
  return standVerdict.some((index) => verdictOf(index) !== 'not known');
}

export function NotJudged({ plan }: { readonly plan: Plan }): ReactElement {
  return (
    <>
      <p>No step could be judged.</p>
      {plan.balance.notes.map((note) => <p key={note} className="hint">{note}</p>)}
    </>
  );
}
