/** What is demanded of a change once a joint was seen to jump with it. */
import type { Demand } from './leastChange.ts';
import type { Problem } from './problem.ts';
import { changeAt, type Profile } from './profile.ts';
import { turnBetween, type Jump } from './stepTurns.ts';

/** A joint that turned too far into a step; `reserveDeg` is kept free of what it may. */
interface JumpWatch {
  readonly step: number;
  readonly joint: number;
  readonly reserveDeg: number;
}

/** A step at which an amount may be no more than so much. */
interface Cap {
  readonly step: number;
  readonly amount: number;
  readonly most: number;
}

export interface Watches {
  readonly jumps: readonly JumpWatch[];
  readonly caps: readonly Cap[];
}

export const NO_WATCHES: Watches = { jumps: [], caps: [] };

/** A change of less than this moves nothing, degrees and millimetres. */
const NOTHING = 1e-4;
/** What a cap leaves of the amount. Our choice. */
const CAPPED = 0.5;

/**
 * The jumps that were found put under watch; one that was there before, with more room.
 *
 * A lifted foot goes on from where it stood and comes to where it will stand, so what the body shifts there turns its leg in all the steps
 * between: where such a leg jumps, the body shifts less at these two steps.
 */
export function watched({ jumps, caps }: Watches, found: readonly Jump[], { amounts, legs, moved }: Problem, profile: Profile, control: Float64Array): Watches {
  const more = found.flatMap(({ step, joint }): readonly Cap[] => {
    const foot = legs.findIndex((leg) => leg.includes(joint));
    const stands = moved.placed.filter((one) => one.foot === foot);
    if (foot < 0 || stands.some(({ from, to }) => from < step && step <= to)) return [];
    const edges = [Math.max(...stands.filter(({ to }) => to < step).map(({ to }) => to)), Math.min(...stands.filter(({ from }) => from >= step).map(({ from }) => from))];
    return edges.filter(Number.isFinite).flatMap((edge) => {
      const change = changeAt(profile, control, amounts.length, edge);
      return amounts.flatMap(({ joints }, amount) => (joints.length > 0 || Math.abs(change[amount]!) < NOTHING ? [] : [{ step: edge, amount, most: CAPPED * Math.abs(change[amount]!) }]));
    });
  });
  const same = (a: { readonly step: number; readonly joint: number }) => (b: { readonly step: number; readonly joint: number }): boolean => a.step === b.step && a.joint === b.joint;
  return {
    caps: [...caps, ...more],
    jumps: [
      ...jumps.filter((one) => !found.some(same(one))),
      ...found.map((one): JumpWatch => {
        const former = jumps.find(same(one));
        return { step: one.step, joint: one.joint, reserveDeg: former === undefined ? 0 : former.reserveDeg + one.overDeg };
      }),
    ],
  };
}

/** The turn of one joint into one step no larger than its largest, by how it goes with all amounts at that step and the one before. */
export function jumpDemand({ reader, amounts, largest }: Problem, profile: Profile, { step, joint, reserveDeg }: JumpWatch, control: Float64Array): readonly Demand[] {
  const k = amounts.length;
  const steps = [step - 1, step];
  const changes = steps.map((s) => changeAt(profile, control, k, s));
  const poses = steps.map((s, i) => reader.here(s, changes[i]!).rotations);
  const at: number[] = [];
  const a: number[] = [];
  let c = turnBetween(poses[1]!, joint, poses[0]!, joint) - (largest[joint]! - reserveDeg);
  steps.forEach((s, i) => {
    const slopes = reader.slopes(reader.near(s, changes[i]!), ({ rotations }) => turnBetween(rotations, joint, poses[1 - i]!, joint));
    const { index, share } = profile.at(s);
    slopes.forEach((slope, amount) => {
      if (Math.abs(slope) < NOTHING) return;
      index.forEach((knot, j) => {
        at.push(knot * k + amount);
        a.push(-share[j]! * slope);
      });
      c -= slope * changes[i]![amount]!;
    });
  });
  // what no amount here turns is no demand on them
  return at.length === 0 ? [] : [{ at, a, c }];
}

export function capDemands({ amounts }: Problem, profile: Profile, { caps }: Watches): readonly Demand[] {
  return caps.flatMap(({ step, amount, most }): readonly Demand[] => {
    const { index, share } = profile.at(step);
    const at = index.map((knot) => knot * amounts.length + amount);
    return at.length === 0 ? [] : [{ at, a: share, c: -most }, { at, a: share.map((by) => -by), c: -most }];
  });
}
