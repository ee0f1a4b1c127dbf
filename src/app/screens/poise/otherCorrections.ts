/** With which corrections the plan is made that is drawn beside the one on the screen. */
import type { PoiseCorrection } from '../../../balance/poiseSettings.ts';

/** `after`: as it would stand with the correction that is looked at; `before`: as it stood without those applied. */
export type Which = 'after' | 'before';

/** Corrections that the other plan is made with; `null`: there is nothing to compare. */
export function otherCorrections(corrections: readonly PoiseCorrection[], tried: PoiseCorrection | null, besideBefore: boolean): { readonly which: Which; readonly corrections: readonly PoiseCorrection[] } | null {
  if (tried !== null) return { which: 'after', corrections: [...corrections, tried] };
  if (!besideBefore || !corrections.some(({ applied }) => applied)) return null;
  return { which: 'before', corrections: corrections.map((one) => ({ ...one, applied: false })) };
}
