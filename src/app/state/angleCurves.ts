/**
 * The angle of each joint at every frame of the take, laid out on the rows of the plan: what the curves are drawn from,
 * while the dots on them are the plan's own steps.
 */
import type { RowCurve } from '../../charts/angleColumn.ts';
import { certaintyOf } from '../../charts/certainty.ts';
import type { FrameAngles } from '../../plan/makePlan.ts';
import type { Plan } from '../../plan/plan.ts';

/** Curve of a joint by its index in `plan.joints`. */
export type AngleCurves = (joint: number) => RowCurve;

/** Row (fractional, 0 = middle of the first) of a moment of the take; steps are evenly spaced in source time. */
export function rowOfTime(plan: Pick<Plan, 'sourceTimeS' | 'stepCount'>, timeS: number): number {
  const first = plan.sourceTimeS[0] ?? 0;
  const second = plan.sourceTimeS[1];
  return second === undefined || second === first ? 0 : (timeS - first) / (second - first);
}

/**
 * @param frames angles at the frames of the take that the plan was made from, for the same joints
 */
export function angleCurves({ joints, timesS, angleDeg, errorDeg, unsure, state }: FrameAngles, plan: Plan): AngleCurves {
  const width = joints.length;
  const last = plan.stepCount - 1;
  const used: number[] = [];
  for (let f = 0; f < timesS.length; f += 1) {
    const row = rowOfTime(plan, timesS[f] ?? 0);
    // Only what the plan uses: the take may go on before its in point and after its out point.
    if (row >= -0.5 && row <= last + 0.5) used.push(f);
  }
  const rowsAt = used.map((f) => rowOfTime(plan, timesS[f] ?? 0));
  return (joint) => ({
    length: used.length,
    row: (point) => rowsAt[point] ?? 0,
    value: (point) => angleDeg[(used[point] ?? 0) * width + joint] ?? Number.NaN,
    errorDeg: (point) => errorDeg[(used[point] ?? 0) * width + joint] ?? Number.NaN,
    certainty: (point) => {
      const at = (used[point] ?? 0) * width + joint;
      return certaintyOf(state[at], unsure[at], angleDeg[at]);
    },
  });
}
