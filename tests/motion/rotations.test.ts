/** Rotations that are put into a figure must come out of its landmarks. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOINT_NAMES, type JointName } from '../../src/motion/joints.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { angleBetween, IDENTITY, multiply, rotationVector, type Quat } from '../../src/numeric/quaternion.ts';
import { evenTimes, figure, jointAt, trackOf, turnX, turnY, turnZ, type FigurePose } from './figure.ts';

const PLAIN = { captureFactor: 1, mirror: false, cutoffHz: 0 };

/**
 * Tracks hold 32-bit numbers: 6e-8 of a metre, over the shortest line that a direction is taken from (6 cm between the
 * knuckles) and through the chain of three joints, a few 1e-6 radians.
 */
const CLOSE = 4e-5;

function motionOf(pose: FigurePose, frames = 3): Float64Array {
  return trackToMotion(trackOf(Array.from({ length: frames }, () => pose), evenTimes(frames, 30)), PLAIN).rotations;
}

const rad = (lo: number, hi: number): fc.Arbitrary<number> => fc.double({ min: lo, max: hi, noNaN: true });
/** Any ball turn up to 60° about each axis in turn. */
const ball = fc.tuple(rad(-1, 1), rad(-1, 1), rad(-1, 1)).map(([x, y, z]): Quat => multiply(turnZ(z), multiply(turnX(x), turnY(y))));
/** Bent enough that its own plane is used and nothing else (from 45°), and not folded shut. */
const bent = rad(0.8, 2.4);
/** An ankle as it can be read: flexion and toes in or out. */
const ankle = fc.tuple(rad(-0.6, 0.6), rad(-0.6, 0.6)).map(([z, y]): Quat => multiply(turnZ(z), turnY(y)));

const anyPose: fc.Arbitrary<FigurePose> = fc.record({
  pelvis: ball, lean: rad(-0.5, 0.5), shoulders: fc.tuple(rad(-0.6, 0.6), rad(-0.3, 0.3)).map(([y, x]): Quat => multiply(turnY(y), turnX(x))),
  head: ball,
  leftShoulder: ball, leftElbow: bent, leftWrist: ball, rightShoulder: ball, rightElbow: bent, rightWrist: ball,
  leftHip: ball, leftKnee: bent, leftAnkle: ankle, rightHip: ball, rightKnee: bent, rightAnkle: ankle,
});

describe('a figure with bent elbows and knees', () => {
  it('gives back every joint, whatever its pose', () => {
    fc.assert(fc.property(anyPose, (pose) => {
      const truth = figure(pose).rotations;
      const got = motionOf(pose);
      for (const joint of JOINT_NAMES) expect(angleBetween(jointAt(got, 1, joint), truth[joint]), joint).toBeLessThan(CLOSE);
    }), { seed: 20261125, numRuns: 200 });
  });

  it('shows the same joints from every side; only the pelvis turns with the camera', () => {
    fc.assert(fc.property(anyPose, rad(-Math.PI, Math.PI), (pose, heading) => {
      const a = motionOf(pose);
      const turned = multiply(turnY(heading), pose.pelvis!);
      const b = motionOf({ ...pose, pelvis: turned });
      for (const joint of JOINT_NAMES) {
        const expected = joint === 'pelvis' ? turned : jointAt(a, 1, joint);
        expect(angleBetween(jointAt(b, 1, joint), expected), joint).toBeLessThan(CLOSE);
      }
    }), { seed: 20261125, numRuns: 100 });
  });

  it('in a mirror has the mirrored joints', () => {
    fc.assert(fc.property(anyPose, (pose) => {
      const track = trackOf([pose, pose], [0, 0.1]);
      const plain = trackToMotion(track, PLAIN).rotations;
      const mirrored = trackToMotion(track, { ...PLAIN, mirror: true }).rotations;
      for (const joint of JOINT_NAMES) {
        const q = jointAt(plain, 1, joint);
        // a mirror across the plane z = 0 turns turns about x and y round
        const expected: Quat = [q[0], -q[1], -q[2], q[3]];
        expect(angleBetween(jointAt(mirrored, 1, opposite(joint)), expected), joint).toBeLessThan(CLOSE);
      }
    }), { seed: 20261125, numRuns: 100 });
  });
});

describe('senses', () => {
  const flexed: FigurePose = { leftElbow: 1.1, rightElbow: 0.7, leftKnee: 0.9, rightKnee: 1.3 };

  it('elbows bend about +z, knees about -z, on both sides, and no other joint moves', () => {
    const got = motionOf(flexed);
    const turns = (joint: JointName): number => rotationVector(jointAt(got, 1, joint))[2];
    expect(turns('leftElbow')).toBeCloseTo(1.1, 5);
    expect(turns('rightElbow')).toBeCloseTo(0.7, 5);
    expect(turns('leftKnee')).toBeCloseTo(-0.9, 5);
    expect(turns('rightKnee')).toBeCloseTo(-1.3, 5);
    for (const joint of JOINT_NAMES.filter((name) => !/Elbow|Knee/.test(name))) {
      expect(angleBetween(jointAt(got, 1, joint), IDENTITY), joint).toBeLessThan(CLOSE);
    }
  });

  it('the rest pose is all identity: straight limbs fall back on where these joints bend in everybody', () => {
    const got = motionOf({});
    for (const joint of JOINT_NAMES) expect(angleBetween(jointAt(got, 1, joint), IDENTITY), joint).toBeLessThan(CLOSE);
  });

  it('an arm raised to the front is a positive turn about z, the right arm raised to its side a negative one about x', () => {
    const front = rotationVector(jointAt(motionOf({ rightShoulder: turnZ(1.2), rightElbow: 0.6 }), 1, 'rightShoulder'));
    expect(front[2]).toBeCloseTo(1.2, 5);
    // about x (forward) the hanging arm (-y) goes to -z, the left; the right arm is raised by a negative turn
    const points = figure({ rightShoulder: turnX(-1.2) }).points;
    expect(points.rightElbow[2]).toBeGreaterThan(points.rightShoulder[2]);
    const side = rotationVector(jointAt(motionOf({ rightShoulder: turnX(-1.2), rightElbow: 0.6 }), 1, 'rightShoulder'));
    expect(side[0]).toBeCloseTo(-1.2, 5);
  });

  it('says which joints it can never show', () => {
    const motion = trackToMotion(trackOf([{}, {}], [0, 0.1]), PLAIN);
    expect(JOINT_NAMES.filter((_, j) => motion.observable[j] === 0)).toEqual(['leftClavicle', 'rightClavicle']);
    expect([...motion.confidence.slice(0, 19)].filter((c) => c === 0)).toHaveLength(2);
  });
});

function opposite(joint: JointName): JointName {
  const other = joint.startsWith('left') ? joint.replace('left', 'right') : joint.replace('right', 'left');
  return other as JointName;
}
