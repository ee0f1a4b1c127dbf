/** The error of an angle about one axis, against turns that are off by a little, and by hand where it is plain. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOINT, JOINT_COUNT, type JointName } from '../../src/motion/joints.ts';
import { JOINT_CLASS } from '../../src/motion/trust/errorClasses.ts';
import { fromAxisAngle, IDENTITY, multiply, type Quat, writeQuat } from '../../src/numeric/quaternion.ts';
import { cross, type Vec3 } from '../../src/numeric/vector3.ts';
import { writeAxisErrors } from '../../src/puppet/axisError.ts';
import { angleAbout, DEG_PER_RAD } from '../../src/puppet/turns.ts';
import { anyQuat, anyUnitVector, SEEDED } from '../numeric/arbitrary.ts';

const [POINTING, TURN] = [4, 25];
const product = (turns: readonly Quat[]): Quat => turns.reduce(multiply, IDENTITY);

interface Found {
  readonly carried: Float64Array;
  readonly turnDeg: number;
}

function errorsOf(chain: readonly JointName[], turns: readonly Quat[], axis: Vec3, pointing = POINTING, turn = TURN): Found {
  const rotations = new Float64Array(JOINT_COUNT * 4);
  turns.forEach((q, i) => writeQuat(rotations, JOINT[chain[i]!], q));
  const carried = new Float64Array(JOINT_COUNT);
  const errors = { rotations, errorDeg: new Float32Array(JOINT_COUNT).fill(pointing), turnErrorDeg: new Float32Array(JOINT_COUNT).fill(turn) };
  const turnDeg = writeAxisErrors(errors, 0, chain.map((name) => JOINT[name]), product(turns), axis, carried);
  return { carried, turnDeg };
}

const slanted = (deg: number): Vec3 => [Math.sin(deg / DEG_PER_RAD), Math.cos(deg / DEG_PER_RAD), 0];

describe('of a joint at rest', () => {
  it('along the bone it is the turn’s, square to it the pointing’s, slanted by cosine and sine of both', () => {
    for (const [deg, expected] of [[0, TURN], [90, POINTING], [180, TURN], [30, Math.hypot(TURN * Math.cos(Math.PI / 6), POINTING / 2)]] as const) {
      for (const joint of ['leftShoulder', 'rightHip', 'leftWrist'] as const) {
        expect(errorsOf([joint], [IDENTITY], slanted(deg)).carried[JOINT[joint]]).toBeCloseTo(expected, 6);
      }
      // the foot's bone points forward
      expect(errorsOf(['leftAnkle'], [IDENTITY], slanted(90 - deg)).carried[JOINT.leftAnkle]).toBeCloseTo(expected, 6);
    }
  });

  it('of trunk, head and hinges it is errorDeg about whatever axis', () => {
    fc.assert(fc.property(anyUnitVector, fc.constantFrom<JointName>('pelvis', 'chest', 'head', 'leftElbow', 'rightKnee'), (axis, joint) => {
      const { carried, turnDeg } = errorsOf([joint], [IDENTITY], axis);
      expect(carried[JOINT[joint]]).toBeCloseTo(POINTING, 6);
      expect(turnDeg).toBe(0);
    }), SEEDED);
  });
});

describe('of a joint that is turned', () => {
  it('about its own axis it stays as it is; a bone that swings off the axis brings its pointing in by the tangent of half the swing', () => {
    for (const deg of [20, 90, 140]) {
      const swing = fromAxisAngle([1, 0, 0], deg / DEG_PER_RAD);
      const own = fromAxisAngle([0, 1, 0], 0.7);
      expect(errorsOf(['leftShoulder'], [own], [0, 1, 0]).carried[JOINT.leftShoulder]).toBeCloseTo(TURN, 6);
      expect(errorsOf(['leftShoulder'], [multiply(swing, own)], [0, 1, 0]).carried[JOINT.leftShoulder])
        .toBeCloseTo(Math.hypot(TURN, POINTING * Math.tan(deg / DEG_PER_RAD / 2)), 5);
    }
  });

  it('is what small turns about and across each bone of the chain do to the angle', () => {
    const chain = ['chest', 'leftShoulder', 'leftWrist'] as const;
    const eps = 1e-5;
    fc.assert(fc.property(fc.tuple(anyQuat, anyQuat, anyQuat), anyUnitVector, (turns, axis) => {
      const q = product(turns);
      const kept = Math.hypot(q[0], q[1] * axis[0] + q[2] * axis[1] + q[3] * axis[2]);
      fc.pre(kept > 0.2);
      const at = angleAbout(q, axis);
      const { carried, turnDeg } = errorsOf(chain, turns, axis);
      let mostTurn = 0;
      chain.forEach((joint, i) => {
        const by = (about: Vec3): number => {
          const off = turns.map((turn, k) => (k === i ? multiply(turn, fromAxisAngle(about, eps)) : turn));
          const change = angleAbout(product(off), axis) - at;
          return (change - 2 * Math.PI * Math.round(change / (2 * Math.PI))) / eps;
        };
        const { bone } = JOINT_CLASS[JOINT[joint]]!;
        const along: Vec3 = bone ?? [0, 1, 0];
        const across: Vec3 = [0, 0, 1];
        const ofTurn = by(along) * (bone === null ? POINTING : TURN);
        const expected = Math.min(180, Math.hypot(ofTurn, by(across) * POINTING, by(cross(along, across)) * POINTING));
        expect(Math.abs(carried[JOINT[joint]]! / expected - 1), joint).toBeLessThan(1e-3);
        if (bone !== null) mostTurn = Math.max(mostTurn, Math.abs(ofTurn));
      });
      expect(Math.abs(turnDeg - Math.min(180, mostTurn))).toBeLessThan(1e-3 * mostTurn + 1e-6);
    }), SEEDED);
  });

  it('never more than half a turn, no number where there is no error', () => {
    expect(errorsOf(['leftShoulder'], [fromAxisAngle([1, 0, 0], Math.PI - 1e-4)], [0, 1, 0]).carried[JOINT.leftShoulder]).toBe(180);
    expect(errorsOf(['leftClavicle'], [IDENTITY], [0, 1, 0], Number.NaN, Number.NaN).carried[JOINT.leftClavicle]).toBeNaN();
  });
});
