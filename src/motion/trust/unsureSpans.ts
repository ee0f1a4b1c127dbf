/**
 * Runs of moments in which one joint stays unsure: what a person is told, once, instead of a mark in every row.
 */
import { UNSURE_REASONS, unsureReasons, type UnsureReason } from './unsure.ts';

/** Moments `from`..`to` (inclusive, from 0) in which joint `joint` is unsure. */
export interface UnsureSpan {
  readonly joint: number;
  readonly from: number;
  readonly to: number;
  /** Every reason that occurs in the span, in order of weight. */
  readonly reasons: readonly UnsureReason[];
}

/**
 * @param unsure `[N·J]` UNSURE_* bits
 * @param joints J
 * @returns joint by joint, each in order of time; joints that the footage can never show are the caller's to leave out
 */
export function unsureSpans(unsure: Uint8Array, joints: number): readonly UnsureSpan[] {
  const count = joints === 0 ? 0 : unsure.length / joints;
  const spans: UnsureSpan[] = [];
  for (let joint = 0; joint < joints; joint++) {
    let from = -1;
    let bits = 0;
    for (let s = 0; s <= count; s++) {
      const here = s < count ? unsure[s * joints + joint]! : 0;
      if (here !== 0) {
        if (from < 0) from = s;
        bits |= here;
      } else if (from >= 0) {
        spans.push({ joint, from, to: s - 1, reasons: unsureReasons(bits) });
        from = -1;
        bits = 0;
      }
    }
  }
  return spans;
}

/** What would settle a span, in sentences, each once. */
export function settledBy(reasons: readonly UnsureReason[]): string {
  return [...new Set(UNSURE_REASONS.filter((reason) => reasons.includes(reason)).map((reason) => reason.settledBy))].join(' ');
}
