/** The puppet's joints as curves over the take, for what is found on them and for versions that are compared. */
import type { Plan } from '../../../plan/plan.ts';
import { curveTurns, type JointCurve } from '../../../timing/moments/curveTurns.ts';
import type { TurningPoint } from '../../../timing/snap/turningPoints.ts';
import { framesOfPlan } from '../../state/planning.ts';

export interface NamedCurve {
  /** The puppet's joint. */
  readonly name: string;
  readonly curve: JointCurve;
}

/** Of the joints that follow the performer and can be seen; none for a plan that is not on the screen any more. */
export function curvesOver(plan: Plan): readonly NamedCurve[] {
  const frames = framesOfPlan(plan);
  if (frames === null) return [];
  const { timesS, angleDeg } = frames;
  const width = plan.joints.length;
  return plan.joints.flatMap(({ name, source, observable }, p) =>
    (source === null || !observable ? [] : [{ name, curve: { joint: source, timesS, angleDeg: (frame: number) => angleDeg[frame * width + p] ?? Number.NaN } }]));
}

/**
 * Extremes by the performer's joint: for those that the plan draws to steps the very ones it goes by, for others those of the puppet's
 * curve, which turns back at the same frames unless a limit cuts it off.
 */
export function turnsFor(plan: Plan, curves: readonly NamedCurve[]): readonly TurningPoint[] {
  const { bent, left } = plan.bentTime;
  const exact: readonly TurningPoint[] = [...bent, ...left];
  const known = new Set(exact.map(({ joint }) => joint));
  const seen = new Set<string>();
  const others = curves.filter(({ curve: { joint } }) => {
    if (known.has(joint) || seen.has(joint)) return false;
    seen.add(joint);
    return true;
  });
  return [...exact, ...others.flatMap(({ curve }) => curveTurns(curve))];
}
