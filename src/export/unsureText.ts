/**
 * What is unsure in a plan, in sentences for a person: which joint, over which steps, why, and what would settle it.
 */
import { unsureSpans, type UnsureSpan } from '../motion/trust/unsureSpans.ts';
import type { Plan } from '../plan/plan.ts';

/** Spans told one by one; what is beyond is counted. */
const MOST_SPANS = 12;

/**
 * Lines without a dash in front: first how much is unsure, then the longest spans in order of time, then what would
 * settle them, each advice once. Empty where nothing is unsure.
 */
export function unsureLines(plan: Plan): readonly string[] {
  const width = plan.joints.length;
  const spans = unsureSpans(plan.unsure, width);
  if (spans.length === 0) return [];
  const told = [...spans].sort((a, b) => length(b) - length(a)).slice(0, MOST_SPANS)
    .sort((a, b) => a.from - b.from || a.joint - b.joint);
  const lines = told.map((span) => {
    const steps = span.from === span.to ? `step ${span.from + 1}` : `steps ${span.from + 1} to ${span.to + 1}`;
    return `${plan.joints[span.joint]!.name}, ${steps}: ${span.reasons.map(({ because }) => because).join('; ')}.`;
  });
  const left = spans.length - told.length;
  if (left > 0) lines.push(`${left} shorter ${left === 1 ? 'span' : 'spans'} more; plan.json has all of them.`);
  const reasons = new Set(spans.flatMap((span) => span.reasons));
  for (const { word, settledBy } of reasons) lines.push(`What settles “${word}”: ${settledBy}`);
  return lines;
}

/** Share of the values of observable joints that are unsure, 0..1; 0 where there are none. */
export function unsureShare(plan: Plan): number {
  const width = plan.joints.length;
  let all = 0;
  let unsure = 0;
  for (let i = 0; i < plan.unsure.length; i++) {
    if (!plan.joints[i % width]!.observable || Number.isNaN(plan.errorDeg[i]!)) continue;
    all++;
    if (plan.unsure[i] !== 0) unsure++;
  }
  return all === 0 ? 0 : unsure / all;
}

function length({ from, to }: UnsureSpan): number {
  return to - from + 1;
}
