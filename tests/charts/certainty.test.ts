import { describe, expect, it } from 'vitest';
import { certaintyAt, certaintyOf, gapsAt, incrementCertaintyAt } from '../../src/charts/certainty.ts';
import { STATE_BRIDGED, STATE_MEASURED, STATE_MISSING } from '../../src/motion/motion.ts';
import { UNSURE_HIDDEN } from '../../src/motion/trust/unsure.ts';
import { doubtfulPlan } from './samplePlan.ts';

describe('certainty', () => {
  it('of a value goes by its state, its confidence and whether there is a value at all', () => {
    expect(certaintyOf(STATE_MEASURED, 0, 12)).toBe('measured');
    expect(certaintyOf(STATE_MEASURED, UNSURE_HIDDEN, 12)).toBe('unsure');
    expect(certaintyOf(STATE_BRIDGED, 0, 12)).toBe('unsure');
    expect(certaintyOf(STATE_MISSING, 0, 12)).toBe('missing');
    expect(certaintyOf(STATE_MEASURED, 0, Number.NaN)).toBe('missing');
  });

  it('of a turn is no better than that of the pose it starts from, whatever number it carries', () => {
    const plan = doubtfulPlan();
    const KNEE = 3;
    plan.state[2 * 4 + KNEE] = STATE_MISSING;
    expect(Number.isFinite(plan.incrementDeg[3 * 4 + KNEE])).toBe(true);
    expect(certaintyAt(plan, 3, KNEE)).toBe('measured');
    expect(incrementCertaintyAt(plan, 3, KNEE)).toBe('missing');
    plan.state[2 * 4 + KNEE] = STATE_BRIDGED;
    expect(incrementCertaintyAt(plan, 3, KNEE)).toBe('unsure');
  });

  it('of a step does not count joints that cannot be seen', () => {
    const plan = doubtfulPlan();
    plan.state[0 * 4 + 1] = STATE_MISSING;
    expect(gapsAt(plan, 0)).toEqual({ missing: 0, bridged: 0 });
    expect(gapsAt(plan, 4)).toEqual({ missing: 1, bridged: 0 });
  });
});
