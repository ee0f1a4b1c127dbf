/** Pauses kept alive: moves that a hand can make, that come back, stay within their drift, and leave no pause dead for long. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../../../scripts/serve/projectFolder.ts';
import { fitTake } from '../../../src/motion/fit/fitTake.ts';
import { deadHolds } from '../../../src/plan/deadHolds.ts';
import { createPlanner } from '../../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../../src/plan/settings.ts';
import { trackFromJson } from '../../../src/pose/trackJson.ts';
import { type AliveSources, aliveTurns, MOST_DRIFT_DEG } from '../../../src/puppet/alive/aliveTurns.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { MARLA } from '../../../src/puppet/examples/human.ts';
import { DEFAULT_PUPPET_SETTINGS } from '../../../src/puppet/puppetSettings.ts';
import { JOINT_COUNT } from '../../../src/motion/joints.ts';
import { LIMBS } from '../../../src/timing/moments/moments.ts';
import { layOutSteps } from '../../../src/timing/steps.ts';
import { ALIVE_PATTERNS, DEFAULT_MOST_STILL, DEFAULT_TIMING, type AliveSettings } from '../../../src/timing/timingSettings.ts';

const COUNT = 80;
const armature = completeArmature(MARLA);
const width = armature.joints.length;
const steps = layOutSteps({ inS: null, outS: null, captureFactor: 1, rate: 24, on: 2, timeScale: 1 }, 0, (COUNT - 1) / 12);
const still = {
  timesS: steps.sourceTimeS,
  rotations: Float64Array.from({ length: COUNT * JOINT_COUNT * 4 }, (_, i) => (i % 4 === 0 ? 1 : 0)),
  rootM: new Float64Array(COUNT * 3), contacts: new Uint8Array(COUNT * 2).fill(1), confidence: new Float32Array(COUNT * JOINT_COUNT).fill(1),
  state: new Uint8Array(COUNT * JOINT_COUNT), errorDeg: new Float32Array(COUNT * JOINT_COUNT), turnErrorDeg: new Float32Array(COUNT * JOINT_COUNT), unsure: new Uint8Array(COUNT * JOINT_COUNT),
};
const sourcesOf = (pauses: AliveSources['pauses']): AliveSources => ({
  pauses, posesAt: () => still, performer: { observable: new Uint8Array(JOINT_COUNT).fill(1), legLengthM: 0.9 }, steps, armature: MARLA,
  settings: DEFAULT_PUPPET_SETTINGS, others: null, kept: null,
});
const pausesFrom = (fromStep: number, toStep: number) => LIMBS.map((of) => ({ of, fromS: fromStep / 12, toS: toStep / 12, driftDeg: 0, fromStep, toStep }));

const anyAlive: fc.Arbitrary<AliveSettings> = fc.record({
  strength: fc.constantFrom('gentle' as const, 'strong' as const), pattern: fc.constantFrom(...ALIVE_PATTERNS), frozen: fc.subarray(armature.joints.map(({ name }) => name), { maxLength: 4 }),
  mostStill: fc.integer({ min: 2, max: 8 }),
});

describe('what is added to a pause', () => {
  it('is nothing outside it and at its ends, no more than the drift, at least a smallest move somewhere, and nothing on frozen joints', () => {
    fc.assert(fc.property(anyAlive, fc.integer({ min: 0, max: 30 }), fc.integer({ min: 7, max: 48 }), (settings, from, length) => {
      const to = from + length - 1;
      const added = aliveTurns(sourcesOf(pausesFrom(from, to)), settings);
      expect(added).not.toBeNull();
      armature.joints.forEach(({ name, smallestDeg }, p) => {
        let most = 0;
        for (let s = 0; s < COUNT; s++) {
          const size = Math.hypot(...added!.turnDeg.subarray((s * width + p) * 3, (s * width + p) * 3 + 3));
          if (s <= from || s >= to) expect(size).toBe(0);
          most = Math.max(most, size);
        }
        expect(most).toBeLessThanOrEqual(MOST_DRIFT_DEG[settings.strength as 'gentle'] + 1e-9);
        if (settings.frozen.includes(name)) expect(most).toBe(0);
        else if (most > 0) expect(most).toBeGreaterThanOrEqual(Math.min(smallestDeg, MOST_DRIFT_DEG.gentle) - 1e-9);
      });
    }), { numRuns: 60 });
  });

  it('is nothing when it is off, and the same every time', () => {
    const sources = sourcesOf(pausesFrom(5, 40));
    expect(aliveTurns(sources, { strength: 'off', pattern: 'breath', frozen: [], mostStill: DEFAULT_MOST_STILL })).toBeNull();
    expect(aliveTurns(sources, { strength: 'gentle', pattern: 'breath', frozen: [], mostStill: DEFAULT_MOST_STILL })).toEqual(aliveTurns(sources, { strength: 'gentle', pattern: 'breath', frozen: [], mostStill: DEFAULT_MOST_STILL }));
  });
});

describe('in the demo’s plan', () => {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  const track = trackFromJson(shipped.track);
  const body = fitTake(track, 1);
  const planner = createPlanner();
  // a pose held for two seconds, as nobody performs it
  const marks = [
    { id: 'a', sourceS: 2.8, filmS: 2.75, locked: false, kind: 'placed' as const, name: '' }, { id: 'b', sourceS: 2.8, filmS: 4.75, locked: false, kind: 'placed' as const, name: '' },
  ];
  const planOf = (alive: AliveSettings) => planner.plan(track, MARLA, DEFAULT_SETTINGS, { body, timing: { ...DEFAULT_TIMING, marks, alive } });

  it('the held pose is a dead hold, and is named as one', () => {
    const dead = deadHolds(planOf({ strength: 'off', pattern: 'sway', frozen: [], mostStill: DEFAULT_MOST_STILL }), DEFAULT_MOST_STILL);
    expect(dead.some(({ fromStep, toStep }) => toStep - fromStep >= 20)).toBe(true);
  });

  it.each(ALIVE_PATTERNS.flatMap((pattern) => (['gentle', 'strong'] as const).map((strength) => ({ pattern, strength }))))('$pattern, $strength: no longer than the set count without a move, orders are whole moves, standing feet stay', ({ pattern, strength }) => {
    const off = planOf({ strength: 'off', pattern, frozen: [], mostStill: DEFAULT_MOST_STILL });
    const plan = planOf({ strength, pattern, frozen: [], mostStill: DEFAULT_MOST_STILL });
    const held = deadHolds(plan, DEFAULT_MOST_STILL).filter(({ fromStep }) => plan.filmTimeS[fromStep]! > 2.9 && plan.filmTimeS[fromStep]! < 4.5);
    expect(held).toEqual([]);
    armature.joints.forEach(({ smallestDeg, kind }, p) => {
      if (kind === 'screw') return;
      for (let s = 1; s < plan.stepCount; s++) {
        const moves = plan.incrementDeg[s * width + p]! / smallestDeg;
        expect(Math.abs(moves - Math.round(moves))).toBeLessThan(1e-6);
      }
    });
    // after the pause the pose is the same again
    const last = plan.stepCount - 1;
    for (let p = 0; p < width; p++) expect(plan.angleDeg[last * width + p]).toBeCloseTo(off.angleDeg[last * width + p]!, 6);
    expect(plan.planted).toEqual(off.planted);
  });
});
