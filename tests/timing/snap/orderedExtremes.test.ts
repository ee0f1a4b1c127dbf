/** Extremes on steps, on the puppet as it is ordered: what a hand sets there is the extreme itself, to within half a smallest move. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { syntheticMotion } from '../../../scripts/pace/syntheticMotion.ts';
import { JOINT, JOINT_COUNT, PERFORMER_KIND, type JointName } from '../../../src/motion/joints.ts';
import type { Motion } from '../../../src/motion/motion.ts';
import { angleOf, fromAxisAngle, fromRotationVector, readQuat, writeQuat } from '../../../src/numeric/quaternion.ts';
import { keptExtremes } from '../../../src/plan/keptExtremes.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { MARLA } from '../../../src/puppet/examples/human.ts';
import { movePuppet } from '../../../src/puppet/movePuppet.ts';
import { orderMoves } from '../../../src/puppet/orderMoves.ts';
import { angleAbout } from '../../../src/puppet/turns.ts';
import { sampleMotion } from '../../../src/timing/sampleMotion.ts';
import { snapExtremes } from '../../../src/timing/snap/snapExtremes.ts';
import { turningPoints } from '../../../src/timing/snap/turningPoints.ts';
import { layOutSteps, warpOf } from '../../../src/timing/steps.ts';
import { SEEDED } from '../../numeric/arbitrary.ts';

const RAD = Math.PI / 180;
const LENGTH_S = 6;
/** Joints whose extremes are drawn to steps; all within their limits, none solved from the floor. */
const CHOSEN = ['leftElbow', 'rightElbow', 'leftShoulder', 'chest', 'head'] as const satisfies readonly JointName[];
const PUPPETS = [
  { words: 'joints without slack', armature: { ...MARLA, joints: MARLA.joints.map((joint) => ({ ...joint, slackDeg: 0 })) } },
  { words: 'the demo’s armature, whose joints have slack', armature: MARLA },
];

/** One slow wave and two quicker, smaller ones, about a bend in the middle of what the joint can do. */
const anyWave = fc.record({
  periods: fc.tuple(fc.double({ min: 1.2, max: 4, noNaN: true }), fc.double({ min: 0.6, max: 1.2, noNaN: true }), fc.double({ min: 0.35, max: 0.6, noNaN: true })),
  phases: fc.tuple(...[0, 1, 2].map(() => fc.double({ min: 0, max: 6.28, noNaN: true }))), size: fc.double({ min: 4, max: 14, noNaN: true }),
});
type Wave = typeof anyWave extends fc.Arbitrary<infer T> ? T : never;

function waveDeg({ periods, phases, size }: Wave, t: number): number {
  return [1, 0.5, 0.25].reduce((sum, part, k) => sum + part * size * Math.sin((2 * Math.PI * t) / periods[k]! + phases[k]!), 0);
}

function smoothMotion(waves: readonly (readonly [Wave, Wave, Wave])[]): Motion {
  const motion = syntheticMotion([], { lengthS: LENGTH_S, framesPerS: 30, noiseDeg: 0, seed: 1 });
  CHOSEN.forEach((joint, k) => {
    const own = waves[k]!;
    motion.timesS.forEach((t, frame) => {
      const [a, b, c] = own.map((wave) => waveDeg(wave, t)) as [number, number, number];
      const at = frame * JOINT_COUNT + JOINT[joint];
      if (PERFORMER_KIND[joint] === 'hinge') writeQuat(motion.rotations, at, fromAxisAngle([0, 0, 1], (60 + 2 * a) * RAD));
      else writeQuat(motion.rotations, at, fromRotationVector([a * RAD, 0.3 * b * RAD, c * RAD]));
    });
  });
  return motion;
}

it.each(PUPPETS)('the ordered puppet has every extreme that was drawn to a step, to within half a smallest move: $words', ({ armature }) => {
  const { joints: puppetJoints } = completeArmature(armature);
  let looked = 0;
  fc.assert(fc.property(fc.array(fc.tuple(anyWave, anyWave, anyWave), { minLength: CHOSEN.length, maxLength: CHOSEN.length }), fc.constantFrom(1, 2, 3), fc.subarray([...CHOSEN], { minLength: 1 }), (waves, on, joints) => {
    const motion = smoothMotion(waves);
    const timing = { inS: null, outS: null, captureFactor: 1, rate: 24, on, timeScale: 1 };
    const last = motion.timesS[motion.timesS.length - 1]!;
    const points = joints.flatMap((joint) => turningPoints(motion, joint));
    const snapped = snapExtremes(warpOf(timing, 0, last), layOutSteps(timing, 0, last).filmTimeS, points);
    const steps = layOutSteps(timing, 0, last, snapped.anchors);
    const poses = sampleMotion(motion, steps.sourceTimeS);
    const moved = movePuppet(() => poses, motion, armature, { drives: null, curves: [], pins: [], plantFeet: true });
    const kept = keptExtremes({ steps, bentTime: snapped, posesAt: () => poses }, completeArmature(armature), { drives: null });
    const { rotations } = orderMoves(completeArmature(armature), moved.rotations, kept);
    for (const { joint, angleDeg, toFilmS } of snapped.bent) {
      const s = steps.filmTimeS.findIndex((t) => Math.abs(t - toFilmS) < 1e-9);
      const p = puppetJoints.findIndex(({ name }) => name === joint);
      const { smallestDeg, axis } = puppetJoints[p]!;
      const turn = readQuat(rotations, s * puppetJoints.length + p);
      const ordered = (PERFORMER_KIND[joint] === 'hinge' ? angleAbout(turn, axis) : angleOf(turn)) / RAD;
      expect(Math.abs(ordered - angleDeg), `${joint} at step ${s}: ${angleDeg} ordered as ${ordered}`).toBeLessThanOrEqual(smallestDeg / 2 + 1e-6);
      looked += 1;
    }
  }), { ...SEEDED, numRuns: 60 });
  // most extremes find their step
  expect(looked).toBeGreaterThan(300);
}, 60_000);
