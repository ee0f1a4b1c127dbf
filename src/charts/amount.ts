/**
 * How much moves from step to step: the figure behind the ladder's bars and behind the choice of joints that are shown first.
 */
import type { Plan } from '../plan/plan.ts';

/**
 * Sum of the sizes of all known turns of each step, degrees: `sums[N]`; joints that cannot be observed add nothing.
 * `largest` is 0 where nothing moves.
 */
export function turnSums(plan: Plan): { readonly sums: Float64Array; readonly largest: number } {
  const sums = new Float64Array(plan.stepCount);
  const joints = plan.joints.length;
  const seen = plan.joints.flatMap(({ observable }, j) => (observable ? [j] : []));
  let largest = 0;
  for (let s = 0; s < plan.stepCount; s += 1) {
    let sum = 0;
    for (const j of seen) {
      const turn = plan.incrementDeg[s * joints + j]!;
      if (Number.isFinite(turn)) sum += Math.abs(turn);
    }
    sums[s] = sum;
    if (sum > largest) largest = sum;
  }
  return { sums, largest };
}

/**
 * Names of the joints that turn most over the whole plan, in the plan's own order (parents first).
 *
 * @param howMany at most so many names; joints that cannot be observed are never among them
 */
export function mostMoving(plan: Plan, howMany: number): string[] {
  const joints = plan.joints.length;
  const totals = plan.joints.map((joint, j) => {
    let total = 0;
    for (let s = 0; s < plan.stepCount; s += 1) {
      const turn = plan.incrementDeg[s * joints + j];
      if (turn !== undefined && Number.isFinite(turn)) total += Math.abs(turn);
    }
    return { name: joint.name, observable: joint.observable, total };
  });
  const chosen = new Set(
    totals.filter((t) => t.observable).sort((a, b) => b.total - a.total).slice(0, howMany).map((t) => t.name),
  );
  return plan.joints.filter((joint) => chosen.has(joint.name)).map((joint) => joint.name);
}
