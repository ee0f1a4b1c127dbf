/**
 * The angle of each joint at every frame of the take, laid out on the rows of the plan: what the curves are drawn from,
 * while the dots on them are the plan's own steps.
 */
import type { RowCurve } from '../../charts/angleColumn.ts';
import { certaintyOf } from '../../charts/certainty.ts';
import type { Motion } from '../../motion/motion.ts';
import { jointAngles } from '../../plan/jointAngles.ts';
import type { Plan } from '../../plan/plan.ts';
import { applyArmature } from '../../puppet/applyArmature.ts';
import type { Armature } from '../../puppet/armature.ts';

/** Curve of a joint by its index in `plan.joints`. */
export type AngleCurves = (joint: number) => RowCurve;

/** Row (fractional, 0 = middle of the first) of a moment of the take; steps are evenly spaced in source time. */
export function rowOfTime(plan: Pick<Plan, 'sourceTimeS' | 'stepCount'>, timeS: number): number {
  const first = plan.sourceTimeS[0] ?? 0;
  const second = plan.sourceTimeS[1];
  return second === undefined || second === first ? 0 : (timeS - first) / (second - first);
}

/**
 * @param motion the motion that the plan was made from
 */
export function angleCurves(motion: Motion, armature: Armature, plan: Plan): AngleCurves {
  const poses = applyArmature(motion, motion.observable, armature);
  const angleDeg = jointAngles(poses);
  const width = poses.joints.length;
  const last = plan.stepCount - 1;
  const frames: number[] = [];
  for (let f = 0; f < motion.timesS.length; f += 1) {
    const row = rowOfTime(plan, motion.timesS[f] ?? 0);
    // Only what the plan uses: the take may go on before its in point and after its out point.
    if (row >= -0.5 && row <= last + 0.5) frames.push(f);
  }
  const rowsAt = frames.map((f) => rowOfTime(plan, motion.timesS[f] ?? 0));
  return (joint) => ({
    length: frames.length,
    row: (point) => rowsAt[point] ?? 0,
    value: (point) => angleDeg[(frames[point] ?? 0) * width + joint] ?? Number.NaN,
    certainty: (point) => {
      const at = (frames[point] ?? 0) * width + joint;
      return certaintyOf(poses.state[at], poses.confidence[at], angleDeg[at]);
    },
  });
}
