import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameAtPlayhead, playheadAtFrame } from '../../src/app/media/frameAtPlayhead.ts';
import { nearestStep } from '../../src/app/state/nearestStep.ts';
import { samplePlan } from '../charts/samplePlan.ts';

/** Thirty frames a second from a millisecond after the first step: five frames for each two steps of the sample plan. */
const timesS = Float64Array.from({ length: 14 }, (_, i) => 0.501 + i / 30);
const plan = samplePlan();

describe('the frame at the playhead', () => {
  it('is the one nearest to the moment of the step', () => {
    // Step 2 is at 0.583 s; frame 2 is 16 ms before it, frame 3 is 18 ms after it.
    expect(frameAtPlayhead(timesS, plan, { step: 1, nudge: 0 })?.frame).toBe(2);
    expect(frameAtPlayhead(timesS, plan, { step: 2, nudge: 0 })?.frame).toBe(5);
  });

  it('follows a nudge and stays in the clip', () => {
    expect(frameAtPlayhead(timesS, plan, { step: 2, nudge: -1 })?.frame).toBe(4);
    expect(frameAtPlayhead(timesS, plan, { step: 0, nudge: -9 })?.frame).toBe(0);
    expect(frameAtPlayhead(timesS, plan, { step: 5, nudge: 99 })?.frame).toBe(13);
  });

  it('comes back to the same frame from any frame', () => {
    fc.assert(fc.property(fc.integer({ min: 0, max: 13 }), (frame) => {
      expect(frameAtPlayhead(timesS, plan, playheadAtFrame(timesS, plan, frame))?.frame).toBe(frame);
    }));
  });

  it('works before there is a plan, and says when there are no frames', () => {
    expect(frameAtPlayhead(timesS, null, { step: 0, nudge: 3 })?.frame).toBe(3);
    expect(frameAtPlayhead(new Float64Array(), plan, { step: 0, nudge: 0 })).toBeUndefined();
  });
});

describe('the step nearest to a moment', () => {
  it('is found also before the first and after the last', () => {
    expect(nearestStep(plan, -3)).toBe(0);
    expect(nearestStep(plan, 99)).toBe(5);
    expect(nearestStep(plan, 0.5 + 1.4 / 12)).toBe(1);
    expect(nearestStep(plan, 0.5 + 1.6 / 12)).toBe(2);
  });
});
