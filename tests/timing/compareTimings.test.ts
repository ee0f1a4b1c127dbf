/** Two timings side by side, against what the planner itself makes of each. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';
import { JOINT_NAMES } from '../../src/motion/joints.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { angleOverFilm, bentTimingOf, compareTimings, countsOf } from '../../src/timing/compareTimings.ts';
import { angleAt, curveTurns, type JointCurve } from '../../src/timing/moments/curveTurns.ts';
import { turningPoints } from '../../src/timing/snap/turningPoints.ts';
import { baseOf } from '../../src/timing/steps.ts';
import { DEFAULT_TIMING, type TimingSettings } from '../../src/timing/timingSettings.ts';

const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
const track = trackFromJson(shipped.track);
const planner = createPlanner();
const motion = planner.motion(track, DEFAULT_SETTINGS);
const turns = JOINT_NAMES.flatMap((joint) => turningPoints(motion, joint));
const base = baseOf(DEFAULT_SETTINGS, track.timesS[0]!, track.timesS[track.timesS.length - 1]!);
const { rate, on, timeScale, captureFactor } = DEFAULT_SETTINGS;
const asPerformed = { timing: DEFAULT_TIMING, rate, on, timeScale };
const marks: TimingSettings['marks'] = [{ id: 'a', sourceS: 2, filmS: 2.5, locked: false, kind: 'placed', name: '' }, { id: 'b', sourceS: 4, filmS: 4.25, locked: false, kind: 'placed', name: '' }];
const bent: TimingSettings = { ...DEFAULT_TIMING, marks, snapJoints: ['leftElbow', 'rightElbow', 'leftKnee'] };

describe('two timings compared', () => {
  it('a timing is what the plan makes of it, with the time bent for extremes', () => {
    const plan = planner.plan(track, MARLA, DEFAULT_SETTINGS, { timing: bent });
    const own = bentTimingOf({ ...asPerformed, timing: bent }, base, captureFactor, turns);
    expect(plan.bentTime.bent.length).toBeGreaterThan(1);
    expect(own.bent.bent.map(({ joint, toFilmS }) => [joint, toFilmS])).toEqual(plan.bentTime.bent.map(({ joint, toFilmS }) => [joint, toFilmS]));
    plan.filmTimeS.forEach((t, s) => expect(own.warp.sourceAt(t)).toBeCloseTo(plan.sourceTimeS[s]!, 9));
    expect(countsOf({ ...asPerformed, timing: bent }, base, captureFactor)).toEqual({ steps: plan.stepCount, exposures: plan.exposureCount, seconds: plan.exposureCount / rate });
  });

  it('counts and lengths of spans differ by what the marks say, without them not at all', () => {
    const both = compareTimings(asPerformed, { ...asPerformed, timing: { ...DEFAULT_TIMING, marks } }, base, captureFactor, [{ startS: 2, endS: 4 }], turns);
    expect(both.spans[0]![0]).toBeCloseTo(48, 6);
    expect(both.spans[0]![1]).toBeCloseTo(42, 6);
    expect(both.second.exposures - both.first.exposures).toBe(6);
    expect(both.firstBent.bent).toEqual([]);
    const same = compareTimings(asPerformed, asPerformed, base, captureFactor, [], turns);
    expect(same.first).toEqual(same.second);
  });

  it('a joint’s angle is that of the moment of the take which stands there', () => {
    const ramp: JointCurve = { joint: 'leftElbow', timesS: [0, 1, 2, 3, 4, 5, 6], angleDeg: (frame) => (frame === 5 ? Number.NaN : frame * 10) };
    const { firstCurve, secondCurve } = compareTimings(asPerformed, { ...asPerformed, timing: { ...DEFAULT_TIMING, marks } }, base, captureFactor, [], []);
    const [a, b] = [angleOverFilm(firstCurve, ramp), angleOverFilm(secondCurve, ramp)];
    const near = (filmS: Float64Array, t: number): number => filmS.reduce((best, one, k) => (Math.abs(one - t) < Math.abs(filmS[best]! - t) ? k : best), 0);
    expect(a[near(firstCurve.filmS, 2)]).toBeCloseTo(10 * firstCurve.sourceS[near(firstCurve.filmS, 2)]!, 6);
    expect(Math.abs(b[near(secondCurve.filmS, 2.5)]! - 20)).toBeLessThan(0.5);
    expect(angleAt(ramp, 4.5)).toBeNaN();
    expect(angleAt(ramp, -1)).toBe(0);
    expect(angleAt(ramp, 9)).toBe(60);
  });

  it('a curve’s extremes are those of the joint, parted by gaps', () => {
    const values = [0, 10, 0, Number.NaN, 0, -10, 0, 10, 0];
    expect(curveTurns({ joint: 'leftElbow', timesS: values.map((_, k) => k), angleDeg: (k) => values[k]! }).map(({ sourceS, angleDeg }) => [sourceS, angleDeg])).toEqual([[1, 10], [5, -10], [7, 10]]);
  });
});
