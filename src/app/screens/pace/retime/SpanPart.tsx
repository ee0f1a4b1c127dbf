/** A span of steps played faster or slower. */
import { type ReactElement, useState } from 'react';
import type { Plan } from '../../../../plan/plan.ts';
import { speedSpan } from '../../../../timing/marks/spans.ts';
import { NumberField } from '../../../fields/NumberField.tsx';
import { editTiming, newMarkAt, freshId } from '../../../state/timingEdits.ts';
import { timeOfStep } from '../../puppet/sources/StepField.tsx';

export function SpanPart({ plan }: { readonly plan: Plan }): ReactElement {
  const [span, setSpan] = useState<readonly [from: number, to: number]>([1, plan.stepCount]);
  const [factor, setFactor] = useState(1.25);
  const from = Math.min(span[0], plan.stepCount);
  const to = Math.min(span[1], plan.stepCount);
  const speed = (by: number): void => {
    const first = { ...newMarkAt(timeOfStep(plan, from - 1)), id: freshId('s') };
    const last = { ...newMarkAt(timeOfStep(plan, to - 1)), id: freshId('e') };
    editTiming((timing, context) => speedSpan(timing, context, first, last, by), { label: `steps ${from} to ${to} at ${by} times the speed` });
  };
  return (
    <fieldset className="span-part">
      <legend className="field-label">A span at another speed</legend>
      <span className="choice-row">
        <NumberField label="From step" value={from} min={1} max={plan.stepCount} step={1} decimals={0} widthCh={4} onCommit={(v) => v !== null && setSpan([Math.round(v), to])} />
        <NumberField label="To step" value={to} min={1} max={plan.stepCount} step={1} decimals={0} widthCh={4} onCommit={(v) => v !== null && setSpan([from, Math.round(v)])} />
        <NumberField label="Times as fast" value={factor} unit="×" min={0.05} max={20} step={0.05} decimals={2} widthCh={4} onCommit={(v) => v !== null && setFactor(v)} />
        <button type="button" disabled={to <= from} onClick={() => speed(factor)}>Retime</button>
      </span>
    </fieldset>
  );
}
