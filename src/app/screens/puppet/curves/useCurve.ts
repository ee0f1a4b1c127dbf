/** The curve that is worked on: its joint and axis, its keys, and the edits of them. */
import { useMemo } from 'react';
import { useStore } from 'zustand';
import { jointWords } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { FREE_AXES, type Range, turnsFreely } from '../../../../puppet/armature.ts';
import type { CompleteArmature } from '../../../../puppet/complete.ts';
import type { CurveAxis, CurveKey } from '../../../../puppet/puppetSettings.ts';
import { puppetView } from '../../../puppet3d/puppetView.ts';
import { currentBook } from '../../../state/bookStore.ts';
import { editPuppet } from '../../../state/puppetEdits.ts';
import { leastStepS } from '../../../state/takeRows.ts';
import { useBook } from '../../../state/use.ts';
import { keyAdded, keyChanged, keyRemoved, keysOf, withKeys } from '../edits/curveKeys.ts';

export interface Curve {
  readonly joint: string;
  readonly axes: readonly CurveAxis[];
  readonly axis: CurveAxis;
  readonly keys: readonly CurveKey[];
  readonly picked: number;
  readonly limitsDeg: Range | null;
  /** Seconds of the take from one step to the next, where they are fewest: keys come no nearer to each other. */
  readonly stepS: number;
}

/** The picked joint's curve; else the first there is; else the first joint that nothing moves; else the root's. */
export function useCurve(plan: Plan, armature: CompleteArmature): Curve {
  const picked = useStore(puppetView, (s) => s.picked);
  const wantedAxis = useStore(puppetView, (s) => s.curveAxis);
  const curveKey = useStore(puppetView, (s) => s.curveKey);
  const curves = useBook((b) => b.puppet.curves);
  return useMemo(() => {
    const joint = armature.joints.find(({ name }) => name === picked)
      ?? armature.joints.find(({ name }) => curves.some((c) => c.joint === name))
      ?? armature.joints.find((_, p) => armature.drives[p]!.from === null)
      ?? armature.joints[0]!;
    const axes: readonly CurveAxis[] = turnsFreely(joint.kind) ? FREE_AXES : ['axis'];
    const axis = axes.find((a) => a === wantedAxis) ?? axes.find((a) => keysOf(curves, joint.name, a).length > 0) ?? axes[axes.length - 1]!;
    const keys = keysOf(curves, joint.name, axis);
    return { joint: joint.name, axes, axis, keys, picked: curveKey < keys.length ? curveKey : -1, limitsDeg: joint.limitsDeg[axis], stepS: leastStepS(plan) };
  }, [plan, armature, picked, wantedAxis, curveKey, curves]);
}

function setKeys(curve: Curve, keys: readonly CurveKey[], label: string, key?: string): void {
  editPuppet({ curves: withKeys(currentBook().puppet.curves, curve.joint, curve.axis, keys) }, label, key);
}

/** Adds a key and picks it. */
export function addKey(curve: Curve, key: CurveKey): void {
  const made = keyAdded(curve.keys, key);
  setKeys(curve, made.keys, `key of the ${jointWords(curve.joint)}`);
  puppetView.setState({ picked: curve.joint, curveAxis: curve.axis, curveKey: made.index });
}

/** Changes a key; what follows quickly is one undo step. */
export function changeKey(curve: Curve, index: number, some: Partial<CurveKey>): void {
  // A value beyond what a book may hold would be refused at the next save.
  const safe = some.valueDeg === undefined ? some : { ...some, valueDeg: Math.max(-3600, Math.min(3600, some.valueDeg)) };
  setKeys(curve, keyChanged(curve.keys, index, safe, curve.stepS), `key of the ${jointWords(curve.joint)}`, `curve.${curve.joint}.${curve.axis}.${index}`);
}

export function removeKey(curve: Curve, index: number): void {
  setKeys(curve, keyRemoved(curve.keys, index), `removal of a key of the ${jointWords(curve.joint)}`);
  puppetView.setState({ curveKey: -1 });
}
