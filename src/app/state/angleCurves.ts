/**
 * The angle of each joint at every frame of the take, laid out on the rows of the plan: what the curves are drawn from,
 * while the dots on them are the plan's own steps.
 */
import type { RowCurve } from '../../charts/angleColumn.ts';
import { certaintyOf } from '../../charts/certainty.ts';
import type { FrameAngles } from '../../plan/makePlan.ts';
import type { Plan } from '../../plan/plan.ts';
import { nearestStep } from './nearestStep.ts';
import { heldRows, rowOfTime } from './takeRows.ts';

/** Curve of a joint by its index in `plan.joints`. */
export type AngleCurves = (joint: number) => RowCurve;

/** Points of a curve, one after another: where each stands and which frame it shows. */
interface CurvePoints {
  readonly length: number;
  readonly row: Float64Array;
  readonly frame: Int32Array;
}

/** The frames that the plan uses, on its rows; a moment that is held over several rows stands at the first and the last. */
function pointsOn(plan: Plan, timesS: Float64Array): CurvePoints {
  const last = plan.stepCount - 1;
  const points = { length: 0, row: new Float64Array(timesS.length), frame: new Int32Array(timesS.length) };
  for (let frame = 0; frame < timesS.length; frame += 1) {
    const row = rowOfTime(plan, timesS[frame] ?? 0);
    // Only what the plan uses: the take may go on before its in point and after its out point.
    if (row < -0.5 || row > last + 0.5) continue;
    points.row[points.length] = row;
    points.frame[points.length] = frame;
    points.length += 1;
  }
  const held = heldRows(plan).flatMap(([from, to]) => {
    const frame = nearestStep({ sourceTimeS: timesS, stepCount: timesS.length }, plan.sourceTimeS[from] ?? 0);
    return [{ row: from, frame }, { row: to, frame }];
  });
  if (held.length === 0) return points;
  const all = [...Array.from({ length: points.length }, (_, i) => ({ row: points.row[i]!, frame: points.frame[i]! })), ...held]
    .sort((a, b) => a.row - b.row || a.frame - b.frame);
  return { length: all.length, row: Float64Array.from(all, ({ row }) => row), frame: Int32Array.from(all, ({ frame }) => frame) };
}

/**
 * @param frames angles at the frames of the take that the plan was made from, for the same joints
 */
export function angleCurves({ joints, timesS, angleDeg, errorDeg, unsure, state }: FrameAngles, plan: Plan): AngleCurves {
  const width = joints.length;
  const points = pointsOn(plan, timesS);
  return (joint) => ({
    length: points.length,
    row: (point) => points.row[point] ?? 0,
    value: (point) => angleDeg[(points.frame[point] ?? 0) * width + joint] ?? Number.NaN,
    errorDeg: (point) => errorDeg[(points.frame[point] ?? 0) * width + joint] ?? Number.NaN,
    certainty: (point) => {
      const at = (points.frame[point] ?? 0) * width + joint;
      return certaintyOf(state[at], unsure[at], angleDeg[at]);
    },
  });
}
