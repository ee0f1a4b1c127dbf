/** What is foreseen of a plan while marks are dragged, against the plan that is made afterwards. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foreseenPlan } from '../../src/plan/foreseen.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { DEFAULT_SETTINGS, type PlanSettings } from '../../src/plan/settings.ts';
import { stepsOf } from '../../src/plan/stepped.ts';
import { turnsFreely } from '../../src/puppet/armature.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { moveMark, placeMark, type MarkContext } from '../../src/timing/marks/marks.ts';
import { baseOf } from '../../src/timing/steps.ts';
import { DEFAULT_TIMING, type TimingSettings } from '../../src/timing/timingSettings.ts';
import { longDemo } from '../../scripts/bench/longDemo.ts';

const SECONDS = 12;
const ONES: PlanSettings = { ...DEFAULT_SETTINGS, rate: 24, on: 1 };
const track = longDemo(SECONDS);
const context: MarkContext = { base: baseOf(ONES, track.timesS[0]!, track.timesS.at(-1)!), rate: ONES.rate };
const MARKS = [2, 4, 6, 8, 10];
const marked = MARKS.reduce<TimingSettings>((timing, t) => placeMark(timing, context, { id: String(t), sourceS: track.timesS[0]! + t, kind: 'placed', name: '' }), DEFAULT_TIMING);
const planner = createPlanner();
const planOf = (timing: TimingSettings): Plan => planner.plan(track, MARLA, ONES, { timing });
const frames = planner.frameAngles(track, MARLA, ONES, { timing: marked });
const before = planOf(marked);
const foresee = (timing: TimingSettings): Plan | null => foreseenPlan(before, frames, stepsOf({ ...ONES, ...timing }, frames.timesS, []).steps);

describe('what is foreseen of a plan', () => {
  it('is the plan itself, in everything it says of its own, where nothing changes', () => {
    const seen = foresee(marked)!;
    expect(seen.sourceTimeS).toEqual(before.sourceTimeS);
    expect(seen.moments).toEqual(before.moments);
    before.incrementDeg.forEach((deg, i) => expect(Math.abs(seen.incrementDeg[i]! - deg)).toBeLessThan(1e-9));
    (['turnDeg', 'endMm', 'heightsPerS'] as const).forEach((what) => before.limbRates[what].forEach((value, i) => {
      if (Number.isNaN(value)) expect(seen.limbRates[what][i]).toBeNaN();
      else expect(Math.abs(seen.limbRates[what][i]! - value)).toBeLessThan(1e-9);
    }));
  });

  it('has the exposures and moments of the plan that comes, and its angles within a degree, whichever mark is dragged where', () => {
    fc.assert(fc.property(fc.constantFrom(...MARKS), fc.integer({ min: -20, max: 20 }), (mark, by) => {
      const timing = moveMark(marked, context, String(mark), mark + by / ONES.rate);
      const [seen, made] = [foresee(timing), planOf(timing)];
      if (seen === null) {
        expect(made.stepCount).not.toBe(before.stepCount);
        return;
      }
      expect(seen.exposure).toEqual(made.exposure);
      expect(seen.holds).toEqual(made.holds);
      expect(seen.sourceTimeS).toEqual(made.sourceTimeS);
      expect(seen.exposureCount).toBe(made.exposureCount);
      expect(seen.moments).toEqual(made.moments);
      expect(seen.state).toEqual(made.state);
      expect(seen.unsure).toEqual(made.unsure);
      expect(seen.errorDeg).toEqual(made.errorDeg);
      expect(seen.turnErrorDeg).toEqual(made.turnErrorDeg);
      made.joints.forEach(({ kind }, p) => {
        for (let s = 0; s < made.stepCount; s++) {
          const at = s * made.joints.length + p;
          expect(Math.abs(seen.angleDeg[at]! - made.angleDeg[at]!)).toBeLessThan(1);
          // the way of a ball is that of the former orders: of a hinge it must lead where the former plan went
          if (!turnsFreely(kind)) expect(Number.isFinite(seen.incrementDeg[at]!)).toBe(true);
        }
      });
    }), { numRuns: 30 });
  });

  it('sums the increments of a hinge to the same turn as before, however the time between is bent', () => {
    const seen = foresee(moveMark(marked, context, '6', 6.5))!;
    before.joints.forEach(({ kind }, p) => {
      if (turnsFreely(kind)) return;
      const sum = (plan: Plan): number => plan.incrementDeg.reduce((all, deg, i) => (i % plan.joints.length === p ? all + deg : all), 0);
      expect(Math.abs(sum(seen) - sum(before))).toBeLessThan(1e-9);
    });
  });

  it('goes twice as fast where the same move has half the time', () => {
    // the mark at 4 s goes to the one at 2 s as near as half the way: the two seconds before it in one
    const seen = foresee(moveMark(marked, context, '4', 3))!;
    const way = (plan: Plan, fromS: number, toS: number): number => {
      let all = 0;
      for (let s = 1; s < plan.stepCount; s++) if (plan.sourceTimeS[s]! > fromS && plan.sourceTimeS[s]! <= toS) for (let l = 0; l < plan.limbRates.turnDeg.length / plan.stepCount; l++) all += plan.limbRates.turnDeg[(s * plan.limbRates.turnDeg.length) / plan.stepCount + l]!;
      return all;
    };
    const steps = (plan: Plan, fromS: number, toS: number): number => [...plan.sourceTimeS].filter((t) => t > fromS && t <= toS).length;
    const [a, b] = [track.timesS[0]! + 2.4, track.timesS[0]! + 3.6];
    const [was, is] = [way(before, a, b) / steps(before, a, b), way(seen, a, b) / steps(seen, a, b)];
    expect(is / was).toBeGreaterThan(1.7);
    expect(is / was).toBeLessThan(2.6);
  });

  it('is not told where the number of steps changes', () => {
    expect(foresee(moveMark(marked, context, '10', 11))).toBeNull();
  });
});
