/** Any held pose of any puppet, kept alive: what is ordered in the end is looked at, after rounding to what a hand can make. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOINT_COUNT, JOINT_NAMES, PERFORMER_KIND, type JointName } from '../../../src/motion/joints.ts';
import { angleOf, conjugate, fromAxisAngle, fromRotationVector, multiply, readQuat, writeQuat, type Quat } from '../../../src/numeric/quaternion.ts';
import { aliveTurns, LEAST_ALIVE_STEPS, MOST_DRIFT_DEG } from '../../../src/puppet/alive/aliveTurns.ts';
import type { Armature } from '../../../src/puppet/armature.ts';
import { turnsFreely } from '../../../src/puppet/armature.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { EXAMPLES } from '../../../src/puppet/examples/all.ts';
import { withinLimits } from '../../../src/puppet/keepLimits.ts';
import { movePuppet } from '../../../src/puppet/movePuppet.ts';
import { orderMoves } from '../../../src/puppet/orderMoves.ts';
import { LIMBS } from '../../../src/timing/moments/moments.ts';
import type { Poses } from '../../../src/timing/poses.ts';
import { layOutSteps } from '../../../src/timing/steps.ts';
import { ALIVE_PATTERNS } from '../../../src/timing/timingSettings.ts';
import { SEEDED } from '../../numeric/arbitrary.ts';

const RAD = Math.PI / 180;
const UNBOUND = { drives: null, curves: [], pins: [], plantFeet: true };

/** Degrees; well within what all five can take on, so that a joint can still move to either side. */
const anyPose: fc.Arbitrary<readonly Quat[]> = fc.array(fc.tuple(...[12, 12, 12].map((most) => fc.double({ min: -most, max: most, noNaN: true }))), { minLength: JOINT_COUNT, maxLength: JOINT_COUNT })
  .map((all) => all.map((v, j): Quat => (PERFORMER_KIND[JOINT_NAMES[j]!] === 'hinge'
    ? fromAxisAngle([0, 0, 1], (30 + v[0]!) * RAD) : fromRotationVector([v[0]! * RAD, v[1]! * RAD, v[2]! * RAD]))));

/** A pose reached from rest, held, and left again; so that what was ordered before it is not the pose itself. */
function heldPose(pose: readonly Quat[], before: number, held: number, after: number): Poses {
  const count = before + held + after;
  const rotations = new Float64Array(count * JOINT_COUNT * 4);
  for (let s = 0; s < count; s++) {
    const share = s < before ? s / before : s < before + held ? 1 : 1 - (s - before - held + 1) / after;
    pose.forEach((q, j) => {
      const eased = share * share * (3 - 2 * share);
      const size = angleOf(q);
      const sine = Math.sin(size / 2);
      writeQuat(rotations, s * JOINT_COUNT + j, size < 1e-9 ? [1, 0, 0, 0] : fromAxisAngle([q[1] / sine, q[2] / sine, q[3] / sine], size * eased));
    });
  }
  return {
    timesS: Float64Array.from({ length: count }, (_, s) => s / 12), rotations, rootM: new Float64Array(count * 3), contacts: new Uint8Array(count * 2).fill(1),
    confidence: new Float32Array(count * JOINT_COUNT).fill(1), state: new Uint8Array(count * JOINT_COUNT),
    errorDeg: new Float32Array(count * JOINT_COUNT), unsure: new Uint8Array(count * JOINT_COUNT),
  };
}

const ABOVE_THE_LEGS: readonly JointName[] = JOINT_NAMES.filter((name) => !/pelvis|Hip|Knee|Ankle|Clavicle/.test(name));

/** Whether a joint can make a move to either side of its pose within its limits and the drift. */
function canMove(armature: ReturnType<typeof completeArmature>, p: number, exact: Quat, mostDriftDeg: number, frozen: readonly string[]): boolean {
  const joint = armature.joints[p]!;
  const source = armature.drives[p]!.from;
  if (source === null || !ABOVE_THE_LEGS.includes(source) || joint.kind === 'screw' || frozen.includes(joint.name)) return false;
  // the exact pose may lean half a move (and the slack) to one side: that much more it has to go
  const needDeg = Math.max(joint.smallestDeg, joint.smallestDeg / 2 + joint.slackDeg) * 1.05 + joint.smallestDeg / 2 + joint.slackDeg;
  if (needDeg > mostDriftDeg) return false;
  const axes = turnsFreely(joint.kind) ? ([[1, 0, 0], [0, 1, 0], [0, 0, 1]] as const) : [joint.axis];
  return axes.every((axis) => [-needDeg, needDeg].every((deg) => {
    const turned = multiply(fromAxisAngle(axis, deg * RAD), exact);
    return angleOf(multiply(withinLimits(joint, turned), conjugate(turned))) < 1e-6;
  }));
}

const anyCase = fc.record({
  pose: anyPose, id: fc.constantFrom(...EXAMPLES.map(({ id }) => id)), strength: fc.constantFrom('gentle' as const, 'strong' as const), pattern: fc.constantFrom(...ALIVE_PATTERNS),
  mostStill: fc.integer({ min: 2, max: 8 }), before: fc.integer({ min: 2, max: 12 }), held: fc.integer({ min: LEAST_ALIVE_STEPS, max: 70 }), freeze: fc.array(fc.nat({ max: 40 }), { maxLength: 30 }),
});

function ordered(poses: Poses, armature: Armature, added: ReturnType<typeof aliveTurns>) {
  const moved = movePuppet(() => poses, { observable: new Uint8Array(JOINT_COUNT).fill(1), legLengthM: 0.9 }, armature, UNBOUND, added);
  return { moved, orders: orderMoves(completeArmature(armature), moved.rotations) };
}

describe('any held pose of any puppet', () => {
  it('never stands still for longer than the set count where a joint can move, stays within its drift, and comes back', () => {
    let checked = 0;
    fc.assert(fc.property(anyCase, ({ pose, id, strength, pattern, mostStill, before, held, freeze }) => {
      const { armature } = EXAMPLES.find((example) => example.id === id)!;
      const complete = completeArmature(armature);
      const width = complete.joints.length;
      const poses = heldPose(pose, before, held, 6);
      const [from, to] = [before, before + held - 1];
      const frozen = freeze.flatMap((k) => (k < width ? [complete.joints[k]!.name] : []));
      const steps = layOutSteps({ inS: null, outS: null, captureFactor: 1, rate: 24, on: 2, timeScale: 1 }, 0, poses.timesS.at(-1)!);
      const pauses = LIMBS.map((of) => ({ of, fromS: from / 12, toS: to / 12, driftDeg: 0, fromStep: from, toStep: to }));
      const added = aliveTurns({ pauses, poses, steps, armature, drives: null }, { strength, pattern, frozen, mostStill });
      const still = ordered(poses, armature, null);
      const alive = ordered(poses, armature, added);
      const most = MOST_DRIFT_DEG[strength];
      complete.joints.forEach(({ name, smallestDeg, slackDeg, kind }, p) => {
        let [farthest, farthestOutside, mostOff] = [0, 0, 0];
        for (let s = 0; s < poses.timesS.length; s++) {
          const at = s * width + p;
          const drift = added === null ? 0 : Math.hypot(...added.turnDeg.subarray(at * 3, at * 3 + 3));
          farthest = Math.max(farthest, drift);
          if (frozen.includes(name) || s <= from || s >= to) farthestOutside = Math.max(farthestOutside, drift);
          mostOff = Math.max(mostOff, angleOf(multiply(readQuat(alive.orders.rotations, at), conjugate(readQuat(alive.moved.rotations, at)))) / RAD);
        }
        expect(farthest).toBeLessThanOrEqual(most + 1e-9);
        expect(farthestOutside).toBe(0);
        // what is ordered lies within half a move (and the slack) of that
        if (kind !== 'screw') expect(mostOff).toBeLessThanOrEqual(smallestDeg / 2 + slackDeg + 1e-6);
        // the held pose is there again at the end of the pause; legs are solved from the mean of their whole stand
        const source = complete.drives[p]!.from;
        if (source === null || !ABOVE_THE_LEGS.includes(source)) return;
        for (const s of [from, to]) expect(angleOf(multiply(readQuat(alive.moved.rotations, s * width + p), conjugate(readQuat(still.moved.rotations, s * width + p)))) / RAD).toBeLessThan(1e-6);
      });
      if (!complete.joints.some((_, p) => canMove(complete, p, readQuat(still.moved.rotations, from * width + p), most, frozen))) return;
      checked += 1;
      let first = from;
      for (let s = from + 1; s <= to; s++) {
        if (complete.joints.some((_, p) => Math.abs(alive.orders.incrementDeg[s * width + p]!) > 1e-9)) first = s;
        expect(s - first + 1, `${id}: steps ${first - from} to ${s - from} of ${held} are the same`).toBeLessThanOrEqual(mostStill);
      }
    }), { ...SEEDED, numRuns: 150 });
    expect(checked).toBeGreaterThan(120);
  }, 60_000);
});
