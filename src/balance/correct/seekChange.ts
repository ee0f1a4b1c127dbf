/**
 * The least change for the demands as they are read, read again where it leads, and so on until it stands still: sequential quadratic
 * programming (Nocedal & Wright, Numerical Optimization, ch. 18; from memory) for a cost that is quadratic as it is.
 */
import { edgeDemands, rangeDemands, rateDemands } from './demands.ts';
import { capDemands, jumpDemand, type Watches } from './jumpDemands.ts';
import { leastChange, type Demand } from './leastChange.ts';
import { LimitWatcher } from './limitDemands.ts';
import type { Problem } from './problem.ts';
import type { Profile } from './profile.ts';

const READINGS = 6;
/** Control values that move by less than this between readings stand still, degrees and millimetres. */
const STANDS_STILL = 0.1;
/** Part of what lacks that is asked for where the whole can't be had as it is read: nearer by, it may. Our choice. */
const PART = 0.5;

/** A profile, with the demands that don't change with what is read. */
export interface Course {
  readonly profile: Profile;
  readonly weights: Float64Array;
  readonly fixed: readonly Demand[];
  readonly limits: LimitWatcher;
}

export function courseOf(problem: Problem, profile: Profile): Course {
  const { amounts } = problem;
  const k = amounts.length;
  return {
    profile, weights: Float64Array.from({ length: profile.count * k }, (_, i) => amounts[i % k]!.weight),
    fixed: [...rangeDemands(problem, profile), ...rateDemands(problem, profile)], limits: new LimitWatcher(problem, profile),
  };
}

/**
 * @param marginMm wanted of each step that is looked at
 * @param start control values from which it is read
 * @returns control values as in `changeAt`, or `null` where no change keeps all demands
 */
export function seekChange(problem: Problem, { profile, weights, fixed, limits }: Course, marginMm: ReadonlyMap<number, number>, watches: Watches, start: Float64Array): Float64Array | null {
  let control = start;
  for (let reading = 0; reading < READINGS; reading++) {
    const edges: Demand[] = [];
    for (const [step, mm] of marginMm) edges.push(...edgeDemands(problem, profile, step, control, mm));
    const others = [...fixed, ...limits.demands(control), ...capDemands(problem, profile, watches), ...watches.jumps.flatMap((jump) => jumpDemand(problem, profile, jump, control))];
    const whole = leastChange(weights, [...others, ...edges]);
    const next = whole ?? leastChange(weights, [...others, ...edges.map((edge) => partOf(edge, control))]);
    if (next === null) return null;
    const apart = next.reduce((most, v, i) => Math.max(most, Math.abs(v - control[i]!)), 0);
    control = next;
    const over = limits.look(control);
    if (apart < STANDS_STILL && !over) return whole === null ? null : control;
    if (reading === READINGS - 1 && whole === null) return null;
  }
  return control;
}

function partOf({ at, a, c }: Demand, control: Float64Array): Demand {
  const now = at.reduce((sum, i, j) => sum + a[j]! * control[i]!, 0);
  return { at, a, c: c > now ? now + (c - now) * PART : c };
}
