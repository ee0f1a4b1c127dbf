/** The made-up track must be what a real one is, or the benchmark would time the planner's refusals. */
import { describe, expect, it } from 'vitest';
import { bytesText, timeText } from '../../scripts/bench/result.ts';
import { syntheticTrack } from '../../scripts/bench/syntheticTrack.ts';
import { makePlan } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { foundCount, frameCount } from '../../src/pose/track.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';

describe('the made-up track', () => {
  const track = syntheticTrack(20, 60);

  it('is as long as asked, with a few short gaps, and the same every time', () => {
    expect(frameCount(track)).toBe(1200);
    expect(frameCount(track) - foundCount(track)).toBe(10);
    expect(syntheticTrack(20, 60).world).toEqual(track.world);
  });

  it('makes a plan in which every observable joint moves and nothing is missing', () => {
    const plan = makePlan(track, STANDARD_ARMATURE, DEFAULT_SETTINGS);
    // 20 s at 24 a second on twos.
    expect(plan.stepCount).toBe(240);
    plan.joints.forEach(({ name, observable }, j) => {
      const turned = Array.from({ length: plan.stepCount }, (_, s) => Math.abs(plan.incrementDeg[s * plan.joints.length + j]!));
      expect(turned.every(Number.isFinite), name).toBe(true);
      if (observable) expect(Math.max(...turned), name).toBeGreaterThan(0.5);
    });
  });
});

describe('figures in words', () => {
  it('keep three figures and the handiest unit', () => {
    expect([timeText(4.26), timeText(123.4), timeText(2345)]).toEqual(['4.3 ms', '123 ms', '2.35 s']);
    expect([bytesText(999), bytesText(1234567), bytesText(45600)]).toEqual(['0.999 kB', '1.23 MB', '45.6 kB']);
  });
});
