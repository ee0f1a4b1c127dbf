/** The plan seen joint by joint, in the form that the columns draw from. */
import type { Plan } from '../plan/plan.ts';
import type { RowValues } from './angleColumn.ts';
import { certaintyAt, incrementCertaintyAt } from './certainty.ts';

/** Angle of a joint (index in `plan.joints`) at each step, degrees. */
export function angleValues(plan: Plan, joint: number): RowValues {
  const joints = plan.joints.length;
  return {
    value: (index) => plan.angleDeg[index * joints + joint] ?? Number.NaN,
    certainty: (index) => certaintyAt(plan, index, joint),
  };
}

/** Turn of a joint since the step before, degrees. */
export function incrementValues(plan: Plan, joint: number): RowValues {
  const joints = plan.joints.length;
  return {
    value: (index) => plan.incrementDeg[index * joints + joint] ?? Number.NaN,
    certainty: (index) => incrementCertaintyAt(plan, index, joint),
  };
}
