/** Edits of the keys of a hand-set curve, each from list to list; times rise, and no two keys stand at one moment. */
import type { CurveAxis, CurveKey, HandCurve } from '../../../../puppet/puppetSettings.ts';

/** Two moments nearer than this are one: far below a step of any film, far above rounding. */
const SAME_S = 1e-6;

/** The keys of one axis of a joint; none where there is no curve. */
export function keysOf(curves: readonly HandCurve[], joint: string, axis: CurveAxis): readonly CurveKey[] {
  return curves.find((c) => c.joint === joint && c.axis === axis)?.keys ?? [];
}

/** All curves with other keys for one of them; a curve without keys is let go. */
export function withKeys(curves: readonly HandCurve[], joint: string, axis: CurveAxis, keys: readonly CurveKey[]): readonly HandCurve[] {
  const isIt = (c: HandCurve): boolean => c.joint === joint && c.axis === axis;
  if (keys.length === 0) return curves.filter((c) => !isIt(c));
  return curves.some(isIt) ? curves.map((c) => (isIt(c) ? { ...c, keys } : c)) : [...curves, { joint, axis, keys }];
}

/** Adds a key, or sets the value of the one that stands at its moment. */
export function keyAdded(keys: readonly CurveKey[], key: CurveKey): { readonly keys: readonly CurveKey[]; readonly index: number } {
  const there = keys.findIndex((k) => Math.abs(k.timeS - key.timeS) < SAME_S);
  if (there >= 0) return { keys: keys.map((k, i) => (i === there ? { ...k, valueDeg: key.valueDeg } : k)), index: there };
  const next = [...keys, key].sort((a, b) => a.timeS - b.timeS);
  return { keys: next, index: next.indexOf(key) };
}

/**
 * Changes a key. A new moment stops short of its neighbours: a key is never dragged through another.
 *
 * @param leastS how near to a neighbour it may come, seconds: a step
 */
export function keyChanged(keys: readonly CurveKey[], index: number, some: Partial<CurveKey>, leastS: number): readonly CurveKey[] {
  const key = keys[index];
  if (key === undefined) return keys;
  const low = index > 0 ? keys[index - 1]!.timeS + leastS : -Infinity;
  const high = index < keys.length - 1 ? keys[index + 1]!.timeS - leastS : Infinity;
  const timeS = some.timeS === undefined || low > high ? key.timeS : Math.max(low, Math.min(high, some.timeS));
  return keys.map((k, i) => (i === index ? { ...k, ...some, timeS } : k));
}

export function keyRemoved(keys: readonly CurveKey[], index: number): readonly CurveKey[] {
  return keys.filter((_, i) => i !== index);
}
