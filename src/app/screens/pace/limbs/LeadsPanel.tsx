/** Limbs compared: speeds, leads, overlap, head and shoulders. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import type { Plan } from '../../../../plan/plan.ts';
import { paceView } from '../../../state/paceView.ts';
import { MovesTable } from '../moves/MovesTable.tsx';
import { SpanTable } from './SpanTable.tsx';

export function LeadsPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const unit = useStore(paceView, (s) => s.unit);
  return (
    <section className="panel" aria-label="Leads">
      <SpanTable plan={plan} unit={unit} />
      <MovesTable plan={plan} />
    </section>
  );
}
