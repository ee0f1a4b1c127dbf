/** A moment of the take, typed as a step of the film. */
import type { ReactElement } from 'react';
import type { Plan } from '../../../../plan/plan.ts';
import { NumberField } from '../../../fields/NumberField.tsx';
import { nearestStep } from '../../../state/nearestStep.ts';

export interface StepFieldProps {
  readonly label: string;
  readonly plan: Plan;
  /** Container seconds. */
  readonly timeS: number;
  readonly hideLabel?: boolean;
  readonly onCommit: (timeS: number) => void;
}

/** Moment of a step (index from 0), container seconds. */
export function timeOfStep(plan: Plan, step: number): number {
  return plan.sourceTimeS[Math.max(0, Math.min(plan.stepCount - 1, step))] ?? 0;
}

export function StepField({ label, plan, timeS, hideLabel, onCommit }: StepFieldProps): ReactElement {
  return (
    <NumberField
      label={label}
      hideLabel={hideLabel}
      unit="step"
      value={nearestStep(plan, timeS) + 1}
      min={1}
      max={plan.stepCount}
      step={1}
      decimals={0}
      widthCh={5}
      onCommit={(v) => v !== null && onCommit(timeOfStep(plan, Math.round(v) - 1))}
    />
  );
}
