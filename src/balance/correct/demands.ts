/** What a change must keep, as linear demands on its control values: value k of amount i is number k·amounts + i. */
import { DEG_PER_RAD } from '../../puppet/turns.ts';
import { edgesOf } from './base.ts';
import type { Demand } from './leastChange.ts';
import type { Problem } from './problem.ts';
import { changeAt, type Profile } from './profile.ts';

/** Part of what the performance leaves of each joint's largest step that the change may use: several amounts may turn one joint. Our choice. */
const ROOM = 0.7;
/** Most that a change may add to a joint from step to step, degrees. Our choice. */
const MOST_RATE_DEG = 45;

/** Each amount within its range. */
export function rangeDemands({ amounts }: Problem, profile: Profile): readonly Demand[] {
  const k = amounts.length;
  return Array.from({ length: profile.count * k }, (_, i) => i).flatMap((i): readonly Demand[] => {
    const [least, most] = amounts[i % k]!.range;
    return [{ at: [i], a: [1], c: least }, { at: [i], a: [-1], c: -most }];
  });
}

/**
 * From step to step no amount goes farther than what the performance leaves of the largest step of the joints that it turns: where a
 * joint makes its largest step anyway, the change waits.
 */
export function rateDemands({ amounts, largest, moved, legMm, legs, lastStep, stepTurns }: Problem, profile: Profile): readonly Demand[] {
  const k = amounts.length;
  const width = largest.length;
  const left = (s: number, joints: readonly number[]): number => joints.reduce((least, p) => Math.min(least, largest[p]! - stepTurns[s * width + p]!), MOST_RATE_DEG);
  const out: Demand[] = [];
  for (let s = Math.max(1, profile.from); s <= Math.min(lastStep, profile.to + 1); s++) {
    const standing = legs.filter((_, f) => moved.placed.some(({ foot, from, to }) => foot === f && s >= from && s - 1 <= to)).flat();
    const [now, before] = [profile.at(s), profile.at(s - 1)];
    amounts.forEach(({ joints }, i) => {
      const rate = ROOM * (joints.length === 0
        // a shift by d turns hip and ankle by about d over the leg's length
        ? (Math.max(0, left(s, standing)) * legMm) / DEG_PER_RAD
        : Math.max(0, left(s, joints)) * joints.length);
      const at = [...now.index.map((c) => c * k + i), ...before.index.map((c) => c * k + i)];
      if (at.length === 0) return;
      const a = [...now.share, ...before.share.map((by) => -by)];
      out.push({ at, a, c: -rate }, { at, a: a.map((v) => -v), c: -rate });
    });
  }
  return out;
}

/** One demand for each edge of the base at a step: the centre of mass at least `marginMm` inside it, by how it goes with each amount there. */
export function edgeDemands({ reader, amounts, balance: { support } }: Problem, profile: Profile, step: number, control: Float64Array, marginMm: number): readonly Demand[] {
  const k = amounts.length;
  const change = changeAt(profile, control, k, step);
  const [x, z] = reader.massAt(step, reader.here(step, change));
  const { ways } = reader.near(step, change);
  const { index, share } = profile.at(step);
  const at = index.flatMap((c) => amounts.map((_, i) => c * k + i));
  return edgesOf(support[step]!).map(({ atX, atZ, inX, inZ }): Demand => {
    const a = new Array<number>(at.length);
    let c = marginMm - (x - atX) * inX - (z - atZ) * inZ;
    for (let i = 0; i < k; i++) {
      const inward = ways[i * 2]! * inX + ways[i * 2 + 1]! * inZ;
      c += inward * change[i]!;
      for (let j = 0; j < share.length; j++) a[j * k + i] = share[j]! * inward;
    }
    return { at, a, c };
  });
}
