/** A change along the steps as a correction of the book: keys at moments of the take. */
import type { CompleteArmature } from '../../puppet/complete.ts';
import type { CorrectionTurn, PoiseCorrection } from '../poiseSettings.ts';
import type { Amount } from './means.ts';
import { changeAt, type Profile } from './profile.ts';
import type { CorrectionAsk } from './correctionShapes.ts';

type Triple = [number, number, number];
/** Turns and shifts below this are none, degrees and millimetres. */
const NOTHING = 1e-4;

/** @param control as in {@link changeAt}. @param liftMm how far the body rises with a change at a step */
export function correctionOf(
  { id, fromStep, toStep, marginMm }: CorrectionAsk, amounts: readonly Amount[], profile: Profile, control: ArrayLike<number>, armature: CompleteArmature,
  sourceTimeS: Float64Array, liftMm: (step: number, change: ArrayLike<number>) => number,
): PoiseCorrection {
  const last = sourceTimeS.length - 1;
  const shift: { readonly timeS: number; readonly shiftMm: Triple }[] = [];
  const turns = new Map<number, { readonly timeS: number; readonly turnDeg: Triple }[]>();
  let former = -1;
  for (let s = profile.from; s <= profile.to; s++) {
    const timeS = sourceTimeS[s]!;
    // a held moment has several steps and one key
    if (former >= 0 && timeS <= sourceTimeS[former]!) continue;
    former = s;
    const change = changeAt(profile, control, amounts.length, s);
    const moved: Triple = [0, 0, 0];
    const turned = new Map<number, Triple>();
    amounts.forEach(({ joints, axis }, i) => {
      if (joints.length === 0) moved[axis] += change[i]!;
      for (const p of joints) {
        const turn = turned.get(p) ?? [0, 0, 0];
        turn[axis] += change[i]! / joints.length;
        turned.set(p, turn);
      }
    });
    moved[1] += liftMm(s, change);
    shift.push({ timeS, shiftMm: moved });
    for (const [p, turnDeg] of turned) turns.set(p, [...(turns.get(p) ?? []), { timeS, turnDeg }]);
  }
  const some = (values: readonly Triple[]): boolean => values.some((value) => value.some((v) => Math.abs(v) > NOTHING));
  return {
    id, marginMm, applied: true, fromS: sourceTimeS[Math.max(0, fromStep)]!, toS: sourceTimeS[Math.min(last, toStep)]!,
    turns: [...turns].filter(([, keys]) => some(keys.map(({ turnDeg }) => turnDeg))).map(([p, keys]): CorrectionTurn => ({ joint: armature.joints[p]!.name, keys })),
    shift: some(shift.map(({ shiftMm }) => shiftMm)) ? shift : [],
  };
}
