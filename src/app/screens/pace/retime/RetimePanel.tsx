/** Retiming by hand: how long it is, the marks, and the moves and pauses that were found, each with its length to be typed. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import type { Plan } from '../../../../plan/plan.ts';
import { Key } from '../../../fields/Key.tsx';
import { runCommand } from '../../../state/commands.ts';
import { paceView } from '../../../state/paceView.ts';
import { CountPart } from './CountPart.tsx';
import { MarkRows } from './MarkRows.tsx';
import { MomentRows } from './MomentRows.tsx';
import { ProposePart } from './ProposePart.tsx';
import { SnapPart } from './SnapPart.tsx';
import { SpanPart } from './SpanPart.tsx';

export function RetimePanel({ plan }: { readonly plan: Plan }): ReactElement {
  const of = useStore(paceView, (s) => s.of);
  return (
    <section className="panel" aria-label="Retime">
      <CountPart plan={plan} />
      <div className="buttons">
        <button type="button" className="lamp" onClick={() => runCommand('markHere')}>Mark here <Key of="markHere" /></button>
        <button type="button" onClick={() => runCommand('holdHere')}>Hold this pose <Key of="holdHere" /></button>
      </div>
      <ProposePart plan={plan} of={of} />
      <MarkRows plan={plan} />
      <MomentRows plan={plan} of={of} />
      <SpanPart plan={plan} />
      <SnapPart plan={plan} />
    </section>
  );
}
