/** What the chosen joints' columns are drawn from: worked out once for a plan, whatever the zoom. */
import { useMemo } from 'react';
import { degreeDomain, type RowCurve, type RowValues } from '../../../charts/angleColumn.ts';
import { incrementDomain } from '../../../charts/incrementColumn.ts';
import { angleValues, incrementValues } from '../../../charts/jointValues.ts';
import type { Plan } from '../../../plan/plan.ts';
import { turnsFreely } from '../../../puppet/armature.ts';
import { curvesOfPlan } from '../../state/planning.ts';

export interface JointColumn {
  readonly joint: number;
  readonly name: string;
  readonly kind: Plan['joints'][number]['kind'];
  readonly angle: RowValues;
  readonly curve: RowCurve;
  /** One sigma of the angle at a step, degrees; NaN where not known. */
  readonly errorDeg: (index: number) => number;
  readonly angleDomain: readonly [number, number];
  /** Turns of the key that make the increment of a step; NaN for joints that are no screws. */
  readonly keyTurns: (index: number) => number;
  readonly increment: RowValues;
  readonly incrementDomain: readonly [number, number];
}

/** @param joints indices in `plan.joints` */
export function useColumns(plan: Plan | null, joints: readonly number[]): readonly JointColumn[] {
  return useMemo(() => {
    const curves = plan === null ? null : curvesOfPlan(plan);
    if (plan === null || curves === null) return [];
    return joints.flatMap((joint) => {
      const known = plan.joints[joint];
      if (known === undefined) return [];
      const curve = curves(joint);
      const increment = incrementValues(plan, joint);
      return [{
        joint,
        name: known.name,
        kind: known.kind,
        angle: angleValues(plan, joint),
        curve,
        errorDeg: (index: number) => plan.errorDeg[index * plan.joints.length + joint] ?? Number.NaN,
        keyTurns: (index: number) => plan.keyTurns[index * plan.joints.length + joint] ?? Number.NaN,
        angleDomain: degreeDomain(curve),
        increment,
        incrementDomain: incrementDomain(plan.stepCount, increment, !turnsFreely(known.kind)),
      }];
    });
  }, [plan, joints]);
}
