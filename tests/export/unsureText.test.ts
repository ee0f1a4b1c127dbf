import { describe, expect, it } from 'vitest';
import { unsureLines, unsureShare } from '../../src/export/unsureText.ts';
import { UNSURE_AT_LENS, UNSURE_BRIDGED } from '../../src/motion/trust/unsure.ts';
import { settledBy, unsureSpans } from '../../src/motion/trust/unsureSpans.ts';
import { samplePlan } from '../charts/samplePlan.ts';

describe('what is unsure, in words', () => {
  const unsure = new Uint8Array(6 * 4);
  unsure[1 * 4 + 2] = UNSURE_AT_LENS;
  unsure[2 * 4 + 2] = UNSURE_AT_LENS | UNSURE_BRIDGED;
  unsure[5 * 4 + 0] = UNSURE_BRIDGED;
  const plan = samplePlan({ unsure });

  it('runs become spans with every reason in them', () => {
    const spans = unsureSpans(unsure, 4);
    expect(spans.map(({ joint, from, to, reasons }) => [joint, from, to, reasons.map(({ word }) => word)])).toEqual([
      [0, 5, 5, ['bridged']], [2, 1, 2, ['at the lens', 'bridged']],
    ]);
    expect(settledBy(spans[1]!.reasons)).toMatch(/from the side.*by hand.*gap/);
    expect(unsureSpans(new Uint8Array(0), 0)).toEqual([]);
  });

  it('each span once, in order of time, and each advice once', () => {
    const lines = unsureLines(plan);
    expect(lines).toHaveLength(4);
    expect(lines[0]).toMatch(/^leftElbow, steps 2 to 3: the limb points at the lens.*; nothing was seen/);
    expect(lines[1]).toMatch(/^head, step 6: nothing was seen/);
    expect(lines.slice(2).every((line) => line.startsWith('What settles'))).toBe(true);
    expect(unsureLines(samplePlan())).toEqual([]);
  });

  it('counts shares of what is observable', () => {
    // three of four joints are observable, six steps; three values are unsure
    expect(unsureShare(plan)).toBeCloseTo(3 / 18, 12);
    expect(unsureShare(samplePlan())).toBe(0);
  });

  it('many spans are not all told', () => {
    const many = samplePlan({ stepCount: 60, unsure: Uint8Array.from({ length: 60 * 4 }, (_, i) => (Math.floor(i / 4) % 2 === 0 ? UNSURE_AT_LENS : 0)) });
    const lines = unsureLines(many);
    expect(lines.filter((line) => line.includes('step'))).toHaveLength(12);
    expect(lines.some((line) => /108 shorter spans more/.test(line))).toBe(true);
  });
});
