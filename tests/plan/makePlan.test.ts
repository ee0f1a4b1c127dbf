import { describe, expect, it } from 'vitest';
import { JOINT_NAMES } from '../../src/motion/joints.ts';
import { STATE_MISSING } from '../../src/motion/motion.ts';
import { angleBetween, fromRotationVector, multiply, readQuat } from '../../src/numeric/quaternion.ts';
import { createPlanner, makePlan } from '../../src/plan/makePlan.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { DEFAULT_SETTINGS, type PlanSettings } from '../../src/plan/settings.ts';
import { validateSettings } from '../../src/plan/validateSettings.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';
import type { Armature } from '../../src/puppet/armature.ts';
import type { Track } from '../../src/pose/track.ts';
import { evenTimes, loseFrame, trackOf, turnX, turnY, turnZ, type FigurePose } from '../motion/figure.ts';

const move = (t: number): FigurePose => ({
  pelvis: turnY(0.8 * t), head: turnX(0.3 * Math.sin(2 * t)), rightShoulder: turnZ(0.8 * Math.sin(2 * t)), rightElbow: 1 + 0.5 * Math.cos(4 * t),
  leftElbow: 1, leftKnee: 0.8 + 0.3 * Math.sin(3 * t), leftHip: turnZ(0.4), rightKnee: 1,
});
const times = evenTimes(300, 30);
const track = trackOf([...times].map(move), times);

const column = (plan: Plan, name: string): number => plan.joints.findIndex((joint) => joint.name === name);
const at = (plan: Plan, values: Float64Array, s: number, name: string): number => values[s * plan.joints.length + column(plan, name)]!;

describe('the plan', () => {
  const plan = makePlan(track, STANDARD_ARMATURE, DEFAULT_SETTINGS);

  it('has a step on every second exposure of the whole take', () => {
    expect(plan.stepCount).toBe(120);
    expect([...plan.exposure.slice(0, 3)]).toEqual([1, 3, 5]);
    expect(plan.joints.map((joint) => joint.name)).toEqual(JOINT_NAMES);
    expect(plan.usedCutoffHz).toBe(DEFAULT_SETTINGS.cutoffHz);
    expect(plan.warnings).toEqual([]);
  });

  it('reads flexion from straight, positive when bent', () => {
    // frames and steps coincide every 1/6 s; smoothing at 6 Hz takes 1 % of a move of 0.64 Hz at most
    for (const s of [12, 48, 100]) {
      const t = plan.sourceTimeS[s]!;
      expect(Math.abs(at(plan, plan.angleDeg, s, 'rightElbow') - ((1 + 0.5 * Math.cos(4 * t)) * 180) / Math.PI)).toBeLessThan(0.5);
      expect(Math.abs(at(plan, plan.angleDeg, s, 'leftKnee') - ((0.8 + 0.3 * Math.sin(3 * t)) * 180) / Math.PI)).toBeLessThan(0.5);
    }
  });

  it('increments of a hinge add up to last ordered minus first, and stay within half a move of the exact angle', () => {
    for (const name of ['leftElbow', 'rightElbow', 'leftKnee', 'rightKnee']) {
      let sum = 0;
      for (let s = 0; s < plan.stepCount; s++) sum += at(plan, plan.incrementDeg, s, name);
      expect(Math.abs(sum - (at(plan, plan.orderedAngleDeg, 119, name) - at(plan, plan.orderedAngleDeg, 0, name)))).toBeLessThan(1e-10);
      // smallest move 1°, slack 0.2°
      for (let s = 0; s < plan.stepCount; s++) expect(Math.abs(at(plan, plan.orderedAngleDeg, s, name) - at(plan, plan.angleDeg, s, name))).toBeLessThanOrEqual(0.7 + 1e-9);
    }
  });

  it('the turns of a ball, one after the other, lead from the first pose to the last', () => {
    for (const name of ['pelvis', 'rightShoulder', 'head']) {
      const p = column(plan, name);
      const width = plan.joints.length;
      let q = readQuat(plan.orderedRotations, p);
      for (let s = 0; s < plan.stepCount; s++) {
        const k = (s * width + p) * 3;
        const turn = [0, 1, 2].map((c) => (plan.turnDeg[k + c]! * Math.PI) / 180) as unknown as readonly [number, number, number];
        q = multiply(fromRotationVector(turn), q); // told in the axes of the parent
        expect(Math.hypot(...turn) * (180 / Math.PI)).toBeCloseTo(at(plan, plan.incrementDeg, s, name), 10);
      }
      expect(angleBetween(q, readQuat(plan.orderedRotations, 119 * width + p))).toBeLessThan(1e-12);
      expect(angleBetween(q, readQuat(plan.rotations, 119 * width + p)) * (180 / Math.PI)).toBeLessThanOrEqual(0.5 + 1e-9);
    }
  });

  it('the turn of a knee is about the negative z axis when it bends', () => {
    const p = column(plan, 'leftKnee');
    const s = [...Array(plan.stepCount).keys()].find((step) => at(plan, plan.incrementDeg, step, 'leftKnee') !== 0)!;
    const k = s * plan.joints.length + p;
    expect(plan.turnDeg[k * 3 + 2]).toBe(-plan.incrementDeg[k]!);
    expect(plan.incrementDeg[k]).not.toBe(0);
  });

  it('nothing moves at the first step', () => {
    for (let p = 0; p < plan.joints.length; p++) {
      expect(plan.incrementDeg[p]).toBe(0);
      expect([...plan.turnDeg.slice(p * 3, p * 3 + 3)]).toEqual([0, 0, 0]);
    }
  });

  it('a swivel that goes round and round goes on counting', () => {
    const spinner: Armature = {
      ...MARLA, bones: [{ name: 'pelvis', lengthMm: 20 }], joints: [{ name: 'pelvis', parent: null, child: 'pelvis', kind: 'swivel' }],
    };
    const spun = makePlan(track, spinner, { ...DEFAULT_SETTINGS, cutoffHz: 0 });
    // 0.8 rad/s for 119 steps of 1/12 s
    expect(spun.angleDeg[119]).toBeCloseTo((0.8 * spun.sourceTimeS[119]! * 180) / Math.PI, 2);
    expect(Math.max(...spun.incrementDeg)).toBeLessThan(5);
  });

  it('across frames with nobody nothing is ordered; the first move after leads on from where the puppet stood', () => {
    const gappy = trackOf([...times].map(move), times);
    for (let t = 100; t < 130; t++) loseFrame(gappy, t);
    const broken = makePlan(gappy, MARLA, DEFAULT_SETTINGS);
    expect(broken.warnings[0]).toBe('No person was found in 30 of 300 frames.');
    for (let s = 0; s < broken.stepCount; s++) {
      for (let p = 0; p < broken.joints.length; p++) {
        const k = s * broken.joints.length + p;
        const missing = broken.state[k] === STATE_MISSING;
        expect(Number.isNaN(broken.angleDeg[k]!)).toBe(missing);
        expect(Number.isNaN(broken.incrementDeg[k]!)).toBe(missing);
        expect(Number.isNaN(broken.turnDeg[k * 3 + 1]!)).toBe(missing);
      }
    }
    expect(broken.state.filter((state) => state === STATE_MISSING).length).toBeGreaterThan(10 * broken.joints.length);
  });

  it('depends on in, out and time scale as the words say', () => {
    const part = makePlan(track, MARLA, { ...DEFAULT_SETTINGS, inS: 2, outS: 4, timeScale: 2, on: 3 });
    expect(part.stepCount).toBe(33); // 4 s of film, a step every 1/8 s, the one on the out point too
    expect(part.sourceTimeS[32]).toBeCloseTo(4, 12);
    expect(part.filmTimeS[32]).toBe(4);
    expect(part.exposure[32]).toBe(97);
  });
});

describe('the planner', () => {
  const planner = createPlanner();
  const plan = planner.plan(track, MARLA, DEFAULT_SETTINGS);
  const motion = planner.motion(track, DEFAULT_SETTINGS);

  it('gives the same plan again for the same question', () => {
    expect(planner.plan(track, MARLA, { ...DEFAULT_SETTINGS })).toBe(plan);
  });

  it('makes the same as the one-shot, stage by stage', () => {
    expect(makePlan(track, MARLA, DEFAULT_SETTINGS)).toEqual(plan);
    const changed = { ...DEFAULT_SETTINGS, on: 3 as const, rate: 25, timeScale: 1.5 };
    expect(planner.plan(track, STANDARD_ARMATURE, changed)).toEqual(makePlan(track, STANDARD_ARMATURE, changed));
  });

  it('does not measure again when only the timing changes, and does when the smoothing does', () => {
    expect(planner.motion(track, { ...DEFAULT_SETTINGS, on: 4, rate: 12, timeScale: 3, inS: 1 })).toBe(motion);
    expect(planner.motion(track, { ...DEFAULT_SETTINGS, cutoffHz: 5 })).not.toBe(motion);
  });

  it('gives the angles between the steps, the same ones where a step falls on a frame', () => {
    const frames = planner.frameAngles(track, MARLA, DEFAULT_SETTINGS);
    expect(planner.frameAngles(track, MARLA, { ...DEFAULT_SETTINGS, on: 1 })).toBe(frames);
    expect(frames.joints).toEqual(plan.joints);
    const p = column(plan, 'rightElbow');
    // step 12 is at 1 s, frame 30
    expect(frames.angleDeg[30 * frames.joints.length + p]).toBeCloseTo(plan.angleDeg[12 * plan.joints.length + p]!, 9);
  });
});

describe('settings', () => {
  const cases: readonly (readonly [Partial<PlanSettings>, RegExp])[] = [
    [{ captureFactor: 0 }, /capture factor is 0; it must be a number from 0\.1 to 100/],
    [{ cutoffHz: 31 }, /cut-off in Hz is 31; it must be a number from 0 to 30/],
    [{ cutoffHz: Number.NaN }, /cut-off in Hz is NaN/],
    [{ rate: 0 }, /exposures a second is 0; it must be a number from 1 to 240/],
    [{ timeScale: 21 }, /time scale is 21/],
    [{ on: 5 as 4 }, /held for 5 exposures; it must be one of 1, 2, 3, 4/],
    [{ inS: Number.POSITIVE_INFINITY }, /in point is Infinity/],
    [{ inS: 3, outS: 3 }, /in point \(3 s\) does not lie before the out point \(3 s\)/],
    [{ inS: 50 }, /in point 50\.000 s/],
  ];
  it.each(cases)('%o is refused', (change, sentence) => {
    const run = (): Plan => makePlan(track, MARLA, { ...DEFAULT_SETTINGS, ...change });
    expect(run).toThrow(sentence);
    expect(run).toThrow(expect.objectContaining({ code: 'bad-settings', name: 'NudgebookError' }));
  });

  it('the defaults are fine', () => expect(() => validateSettings(DEFAULT_SETTINGS)).not.toThrow());

  it('a track without a person is refused', () => {
    const nobody: Track = trackOf([{}, {}], [0, 0.1]);
    loseFrame(nobody, 0);
    loseFrame(nobody, 1);
    expect(() => makePlan(nobody, MARLA, DEFAULT_SETTINGS)).toThrow(expect.objectContaining({ code: 'no-person' }));
  });
});
