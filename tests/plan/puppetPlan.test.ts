/**
 * The puppet on its set, from our own clips: feet that stay, moves that can be played back, readings that agree with them.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readTruth } from '../../scripts/accuracy/truthFile.ts';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import { angleBetween, fromAxisAngle, fromRotationVector, multiply, readQuat, writeQuat } from '../../src/numeric/quaternion.ts';
import { length, readVec3, subtract, type Vec3 } from '../../src/numeric/vector3.ts';
import { createPlanner, makePlan, type FrameAngles } from '../../src/plan/makePlan.ts';
import type { Plan } from '../../src/plan/plan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { hourOf, viewAxes } from '../../src/plan/travel.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import type { Track } from '../../src/pose/track.ts';
import { turnsFreely, type Armature } from '../../src/puppet/armature.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { EXAMPLES } from '../../src/puppet/examples/all.ts';
import { PIP } from '../../src/puppet/examples/child.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { emptyStance, endOf, forward, pointOn, skeletonOf } from '../../src/puppet/kinematics.ts';
import { placeOn } from '../../src/puppet/limb.ts';
import { FLAG_CLIPPED, FLAG_FOOT_SHORT, FLAG_PIN_SHORT, FLAG_SPREAD } from '../../src/puppet/puppetPoses.ts';
import { DEFAULT_PUPPET_SETTINGS, type PuppetSettings } from '../../src/puppet/puppetSettings.ts';
import { soleCorner } from '../../src/puppet/standOnFloor.ts';
import { faultlessTrack } from '../accuracy/faultlessTrack.ts';
import { trackOf, evenTimes, turnX, turnY } from '../motion/figure.ts';

const DEG = 180 / Math.PI;
/** Fitting a body to a take takes seconds on a busy machine. */
const PATIENCE_MS = 120_000;

function demo(): Track {
  const shipped = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: unknown };
  return trackFromJson(shipped.track);
}

/** Our clips: the demo as the model measured it, the others as a faultless model would; posed tracks of them where they were made. */
function ownTakes(): readonly (readonly [string, Track])[] {
  const takes: (readonly [string, Track])[] = [['demo, as measured', demo()]];
  for (const [name, azimuth] of [['walk', 62], ['squat', 35], ['arm-raise', 0], ['one-leg-reach', 35]] as const) {
    takes.push([`${name}, true`, faultlessTrack(readTruth(join(PROJECT_FOLDER, `reference-clips/${name}.truth.json`)), azimuth)]);
  }
  const posed = join(PROJECT_FOLDER, 'generated/accuracy');
  const files = existsSync(posed) ? readdirSync(posed) : [];
  for (const name of ['walk', 'squat']) {
    const file = files.find((f) => f.startsWith(`${name}-full-`));
    if (file === undefined) console.warn(`Skipped: no posed track of ${name} (npm run accuracy makes it).`);
    else takes.push([`${name}, as measured`, trackFromJson(JSON.parse(readFileSync(join(posed, file), 'utf8')))]);
  }
  return takes;
}

const bodies = new Map<Track, FittedBody>();
function bodyOf(track: Track): FittedBody {
  if (!bodies.has(track)) bodies.set(track, fitTake(track, 1));
  return bodies.get(track)!;
}

/** How far any corner of a sole moves while its foot stands, mm, by the exact or the ordered pose. */
function slideMm(plan: Plan, armature: Armature, rotations: Float64Array, root: Float64Array): number {
  const complete = completeArmature(armature);
  const stance = emptyStance(skeletonOf(complete));
  let worst = 0;
  plan.feet.forEach(({ bone }, f) => {
    let first: readonly Vec3[] | null = null;
    for (let s = 0; s < plan.stepCount; s++) {
      if (plan.planted[s * plan.feet.length + f] !== 1) {
        first = null;
        continue;
      }
      forward(skeletonOf(complete), rotations, s, readVec3(root, s), stance);
      const now = complete.bones[bone]!.sole!.outlineMm.map((_, corner) => soleCorner(complete, stance, bone, corner));
      first ??= now;
      now.forEach((place, corner) => { worst = Math.max(worst, length(subtract(place, first![corner]!))); });
    }
  });
  return worst;
}

describe.each(ownTakes())('from %s', (_, track) => {
  it.each(EXAMPLES)('the $id stands on its feet: no slide, nothing under the floor, no foot out of reach', ({ armature }) => {
    const plan = makePlan(track, armature, DEFAULT_SETTINGS, { body: bodyOf(track) });
    expect(plan.planted.reduce((sum, on) => sum + on, 0)).toBeGreaterThan(plan.stepCount / 2);
    expect(slideMm(plan, armature, plan.rotations, plan.rootMm)).toBeLessThan(0.5);
    expect(plan.flags.some((flag) => (flag & FLAG_FOOT_SHORT) !== 0)).toBe(false);
    const complete = completeArmature(armature);
    const stance = emptyStance(skeletonOf(complete));
    for (let s = 0; s < plan.stepCount; s++) {
      forward(skeletonOf(complete), plan.rotations, s, readVec3(plan.rootMm, s), stance);
      for (const { bone } of plan.feet) {
        complete.bones[bone]!.sole!.outlineMm.forEach((__, corner) => expect(soleCorner(complete, stance, bone, corner)[1]).toBeGreaterThan(-0.1));
      }
    }
  }, PATIENCE_MS);
});

/** Rotations of all steps made from the moves alone, beginning at the first ordered pose. */
function playBack(plan: Plan): Float64Array {
  const width = plan.joints.length;
  const out = new Float64Array(plan.stepCount * width * 4);
  plan.joints.forEach(({ kind, axis }, p) => {
    let q = readQuat(plan.orderedRotations, p);
    for (let s = 0; s < plan.stepCount; s++) {
      const at = s * width + p;
      const turn = readVec3(plan.turnDeg, at);
      q = turnsFreely(kind)
        ? multiply(fromRotationVector([turn[0] / DEG, turn[1] / DEG, turn[2] / DEG]), q)
        : multiply(fromAxisAngle(axis, plan.incrementDeg[at]! / DEG), q);
      writeQuat(out, at, q);
    }
  });
  return out;
}

describe('a plan of 2,000 steps', () => {
  const times = evenTimes(2500, 30);
  const track = trackOf([...times].map((t) => ({
    head: turnX(0.3 * Math.sin(1.3 * t)), leftElbow: 1 + 0.6 * Math.sin(0.9 * t), rightElbow: 0.8 + 0.5 * Math.sin(1.7 * t), leftKnee: 0.5 + 0.4 * Math.sin(0.7 * t), rightKnee: 0.6,
    rightShoulder: turnX(-0.5 + 0.4 * Math.sin(0.8 * t)),
  })), times);
  const jaw: PuppetSettings = {
    ...DEFAULT_PUPPET_SETTINGS,
    curves: [{ joint: 'jaw', axis: 'axis', keys: Array.from({ length: 60 }, (_, k) => ({ timeS: k * 1.4, valueDeg: 10 + 9 * Math.sin(k), ease: 'smooth' as const })) }],
    datum: { everySteps: 25, atSteps: [7, 1999], points: null, markMm: [30, -12] },
  };
  const plan = makePlan(track, PIP, { ...DEFAULT_SETTINGS, timeScale: 2 }, { puppet: jaw });
  const complete = completeArmature(PIP);

  it('played back from its moves alone stays within half a smallest move of the exact pose in every joint, to the end', () => {
    expect(plan.stepCount).toBeGreaterThanOrEqual(1999);
    const played = playBack(plan);
    const width = plan.joints.length;
    for (const s of [0, 1, 500, 1000, plan.stepCount - 1]) {
      plan.joints.forEach((joint, p) => {
        const off = angleBetween(readQuat(played, s * width + p), readQuat(plan.rotations, s * width + p)) * DEG;
        const { smallestDeg, slackDeg } = complete.joints[p]!;
        // the slack counts only while a poke lasts, never at the end
        expect(off, joint.name).toBeLessThanOrEqual(smallestDeg / 2 + (s === plan.stepCount - 1 ? 0 : slackDeg) + 1e-6);
      });
    }
  });

  it('every datum agrees with forward kinematics of that play-back to 0.1 mm', () => {
    const played = playBack(plan);
    const stance = emptyStance(skeletonOf(complete));
    expect(plan.datums.length).toBeGreaterThan(80 * plan.points.length);
    for (const { step, point, heightMm, fromMarkMm } of plan.datums) {
      forward(skeletonOf(complete), played, step - 1, readVec3(plan.orderedRootMm, step - 1), stance);
      const { bone, at } = plan.points.find(({ name }) => name === point)!;
      const [x, y, z] = pointOn(stance, bone, placeOn(complete, bone, at));
      expect(Math.abs(y - heightMm)).toBeLessThan(0.1);
      expect(Math.abs(Math.hypot(x - 30, z + 12) - fromMarkMm)).toBeLessThan(0.1);
    }
  });

  it('a screw is told in eighths of a turn of its key, which add up to its opening', () => {
    const p = plan.joints.findIndex(({ name }) => name === 'jaw');
    const width = plan.joints.length;
    let turns = 0;
    for (let s = 0; s < plan.stepCount; s++) {
      const key = plan.keyTurns[s * width + p]!;
      expect(Math.abs(key * 8 - Math.round(key * 8))).toBeLessThan(1e-9);
      turns += key;
    }
    const travel = (deg: number): number => (9 * Math.tan(deg / DEG)) / 0.5;
    const [first, last] = [plan.orderedAngleDeg[p]!, plan.orderedAngleDeg[(plan.stepCount - 1) * width + p]!];
    expect(turns).toBeCloseTo(travel(last) - travel(first), 8);
    expect(plan.keyTurns.filter((key) => !Number.isNaN(key)).length).toBe(plan.stepCount);
  });
});

describe('what the standing foot carries', () => {
  const track = demo();
  it('the ordered puppet hangs on the foot that stands: that foot does not move at all', () => {
    const plan = makePlan(track, MARLA, DEFAULT_SETTINGS, { body: bodyOf(track) });
    const complete = completeArmature(MARLA);
    const stance = emptyStance(skeletonOf(complete));
    let beforeFoot = -1;
    let beforePlace: Vec3 = [0, 0, 0];
    for (let s = 0; s < plan.stepCount; s++) {
      const foot = plan.holding[s]!;
      if (foot < 0) continue;
      forward(skeletonOf(complete), plan.orderedRotations, s, readVec3(plan.orderedRootMm, s), stance);
      const place = pointOn(stance, plan.feet[foot]!.bone, [0, 0, 0]);
      if (beforeFoot === foot && plan.planted[(s - 1) * 2 + foot] === 1) expect(length(subtract(place, beforePlace))).toBeLessThan(1e-9);
      [beforeFoot, beforePlace] = [foot, place];
    }
  }, PATIENCE_MS);

  it('a pinned hand stays on its place, and one out of reach is flagged', () => {
    const free = makePlan(track, MARLA, DEFAULT_SETTINGS, { body: bodyOf(track) });
    const complete = completeArmature(MARLA);
    const hand = complete.bones.findIndex(({ name }) => name === 'leftHand');
    const stance = emptyStance(skeletonOf(complete));
    const handAt = (plan: Plan, s: number): Vec3 => {
      forward(skeletonOf(complete), plan.rotations, s, readVec3(plan.rootMm, s), stance);
      return endOf(skeletonOf(complete), stance, hand);
    };
    const target = handAt(free, 20);
    const pin = { bone: 'leftHand', at: 1, fromS: free.sourceTimeS[20]!, toS: free.sourceTimeS[26]!, targetMm: target, easeSteps: 2 };
    const pinned = makePlan(track, MARLA, DEFAULT_SETTINGS, { body: bodyOf(track), puppet: { ...DEFAULT_PUPPET_SETTINGS, pins: [pin] } });
    for (let s = 20; s <= 26; s++) expect(length(subtract(handAt(pinned, s), target))).toBeLessThan(0.5);
    const far = makePlan(track, MARLA, DEFAULT_SETTINGS, { body: bodyOf(track), puppet: { ...DEFAULT_PUPPET_SETTINGS, pins: [{ ...pin, targetMm: [0, 900, 0] }] } });
    expect(far.flags.some((flag) => (flag & FLAG_PIN_SHORT) !== 0)).toBe(true);
    expect(far.warnings.join(' ')).toMatch(/can’t reach its pin: leftShoulder in 7 steps/);
  }, PATIENCE_MS);
});

describe('how the puppet follows', () => {
  const times = evenTimes(60, 30);
  const track = trackOf([...times].map((t) => ({ leftElbow: 1 + 0.5 * Math.sin(4 * t), rightElbow: 1, leftKnee: 1, rightKnee: 1 })), times);
  const elbow = (plan: Plan, s: number): number => plan.angleDeg[s * plan.joints.length + plan.joints.findIndex(({ name }) => name === 'leftElbow')]!;
  const withDrive = (drive: object): Plan => makePlan(track, MARLA, { ...DEFAULT_SETTINGS, on: 1 }, { puppet: { ...DEFAULT_PUPPET_SETTINGS, drives: [{ joint: 'leftElbow', from: 'leftElbow', ...drive }] } });
  const plain = withDrive({});

  it('gain exaggerates, offset is added, a delay is so many steps, fractions too', () => {
    for (const s of [5, 20, 40]) {
      expect(elbow(withDrive({ gain: 1.5 }), s)).toBeCloseTo(1.5 * elbow(plain, s), 8);
      expect(elbow(withDrive({ offsetDeg: { axis: 12 } }), s)).toBeCloseTo(elbow(plain, s) + 12, 8);
      expect(elbow(withDrive({ delaySteps: 3 }), s)).toBeCloseTo(elbow(plain, s - 3), 6);
      const half = elbow(withDrive({ delaySteps: 2.5 }), s);
      const [a, b] = [elbow(plain, s - 3), elbow(plain, s - 2)].sort((x, y) => x - y) as [number, number];
      expect(half).toBeGreaterThan(a - 0.5);
      expect(half).toBeLessThan(b + 0.5);
    }
  });

  it('a delay of two steps and a half reads the performer half-way between two steps, at the steps and at the frames', () => {
    // on twos of 30 a second a step is two frames: a lag of 2.5 steps is 5 frames
    const settings = { ...DEFAULT_SETTINGS, rate: 30, on: 2 as const };
    const puppet: PuppetSettings = { ...DEFAULT_PUPPET_SETTINGS, drives: [{ joint: 'leftElbow', from: 'leftElbow', delaySteps: 2.5 }] };
    const [plain, late] = [DEFAULT_PUPPET_SETTINGS, puppet].map((of) => createPlanner().frameAngles(track, MARLA, settings, { puppet: of })) as [FrameAngles, FrameAngles];
    const width = late.joints.length;
    const p = late.joints.findIndex(({ name }) => name === 'leftElbow');
    const before = (t: number): number => plain.angleDeg[t * width + p]!;
    for (let t = 0; t < 60; t++) {
      expect(late.angleDeg[t * width + p]).toBeCloseTo(before(Math.max(0, t - 5)), 6);
      for (let q = 0; q < width; q++) if (q !== p) expect(late.angleDeg[t * width + q]).toBe(plain.angleDeg[t * width + q]);
    }
    const plan = makePlan(track, MARLA, settings, { puppet });
    for (let s = 3; s < plan.stepCount; s++) expect(elbow(plan, s)).toBeCloseTo(before(2 * s - 5), 6);
  });

  it('what a spine joint cannot take its neighbours do, flagged; what none can is cut off, flagged', () => {
    const turned = trackOf([...times].map(() => ({ shoulders: turnY(0.5), leftElbow: 1, rightElbow: 1, leftKnee: 1, rightKnee: 1 })), times);
    const limit = (deg: number, both: boolean): Armature => ({
      ...MARLA, joints: MARLA.joints.map((j) => (j.name === 'spine' || (both && j.name === 'chest') ? { ...j, limitsDeg: { forward: [-deg, deg], up: [-deg, deg], right: [-deg, deg] } } : { ...j, limitsDeg: {} })),
    });
    const of = (armature: Armature) => {
      const plan = makePlan(turned, armature, DEFAULT_SETTINGS);
      const at = (name: string): number => plan.joints.findIndex((j) => j.name === name);
      const [spine, chest] = [at('spine'), at('chest')];
      const whole = angleBetween(multiply(readQuat(plan.rotations, spine), readQuat(plan.rotations, chest)), [1, 0, 0, 0]) * DEG;
      return { whole, spine: angleBetween(readQuat(plan.rotations, spine), [1, 0, 0, 0]) * DEG, flags: [plan.flags[spine]!, plan.flags[chest]!] };
    };
    const free = of(limit(90, true));
    expect(free.flags).toEqual([0, 0]);
    const spread = of(limit(free.spine / 2, false));
    expect(spread.whole).toBeCloseTo(free.whole, 2);
    expect(spread.spine).toBeLessThanOrEqual(free.spine * 0.9);
    expect(spread.flags).toEqual([FLAG_SPREAD, FLAG_SPREAD]);
    const cut = of(limit(free.spine / 3, true));
    expect(cut.whole).toBeLessThan(free.whole * 0.75);
    expect(cut.flags.every((flag) => (flag & FLAG_CLIPPED) !== 0)).toBe(true);
  });
});

describe('travel as the taking camera sees it', () => {
  it('up is 12, right 3, down 6, left 9; a camera in front has the puppet’s left on its right', () => {
    expect([hourOf(0, 1), hourOf(1, 0), hourOf(0, -1), hourOf(-1, 0)].map((h) => Math.round(h * 1e6) / 1e6)).toEqual([12, 3, 6, 9]);
    expect(hourOf(0.01, 0.01)).toBeNaN();
    const front = viewAxes({ azimuthDeg: 0, elevationDeg: 0 });
    expect(front.right.map((v) => v + 0)).toEqual([0, 0, -1]);
    expect(front.toward.map((v) => Math.round(v))).toEqual([1, 0, 0]);
    // from the puppet's right side its forward is on the picture's right
    expect(viewAxes({ azimuthDeg: 90, elevationDeg: 0 }).right.map((v) => Math.round(v) + 0)).toEqual([1, 0, 0]);
    expect(viewAxes({ azimuthDeg: 0, elevationDeg: 90 }).toward.map((v) => Math.round(v) + 0)).toEqual([0, 1, 0]);
  });
});
