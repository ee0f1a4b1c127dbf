/** Two steps typed as a span; the playhead's step with one press. */
import type { ReactElement } from 'react';
import type { Plan } from '../../../plan/plan.ts';
import { NumberField } from '../../fields/NumberField.tsx';
import { playhead } from '../../state/playhead.ts';

export type StepSpan = readonly [from: number, to: number];

export interface SpanFieldsProps {
  readonly plan: Plan;
  /** From 1, both included. */
  readonly span: StepSpan;
  readonly onChange: (span: StepSpan) => void;
}

export function SpanFields({ plan, span: [from, to], onChange }: SpanFieldsProps): ReactElement {
  const here = (): number => playhead.getState().step + 1;
  return (
    <span className="choice-row span-fields">
      <NumberField label="From step" value={Math.min(from, plan.stepCount)} min={1} max={plan.stepCount} step={1} decimals={0} widthCh={4} onCommit={(v) => v !== null && onChange([Math.round(v), Math.max(Math.round(v), to)])} />
      <button type="button" className="small" onClick={() => onChange([here(), Math.max(here(), to)])}>here</button>
      <NumberField label="To step" value={Math.min(to, plan.stepCount)} min={1} max={plan.stepCount} step={1} decimals={0} widthCh={4} onCommit={(v) => v !== null && onChange([Math.min(from, Math.round(v)), Math.round(v)])} />
      <button type="button" className="small" onClick={() => onChange([Math.min(from, here()), here()])}>here</button>
    </span>
  );
}

/** Steps (from 1) of a span of the take, as the plan has them now. */
export function stepsOfSpan({ sourceTimeS, stepCount }: Plan, fromS: number, toS: number): StepSpan {
  let from = 0;
  while (from < stepCount - 1 && sourceTimeS[from]! < fromS) from++;
  let to = stepCount - 1;
  while (to > 0 && sourceTimeS[to]! > toS) to--;
  return [from + 1, Math.max(from, to) + 1];
}
