import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOINT, JOINT_COUNT, JOINT_NAMES, JOINT_PARENT, PERFORMER_KIND, type JointKind, type JointName } from '../../src/motion/joints.ts';
import { STATE_BRIDGED, STATE_MEASURED, STATE_MISSING } from '../../src/motion/motion.ts';
import { TURN_LIMIT_DEG, UNSURE_TURN } from '../../src/motion/trust/unsure.ts';
import { angleBetween, fromAxisAngle, IDENTITY, multiply, readQuat, twistAngle, writeQuat, type Quat } from '../../src/numeric/quaternion.ts';
import { turnWarnings } from '../../src/plan/turnWarnings.ts';
import { applyArmature } from '../../src/puppet/applyArmature.ts';
import type { Armature, Triple } from '../../src/puppet/armature.ts';
import { FLAG_LOST } from '../../src/puppet/puppetPoses.ts';
import { checkArmature } from '../../src/puppet/parseArmature.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';
import type { Poses } from '../../src/timing/poses.ts';
import { anyQuat, SEEDED } from '../numeric/arbitrary.ts';

const ALL_SEEN = new Uint8Array(JOINT_COUNT).fill(1);

function posesOf(moments: readonly (readonly Quat[])[]): Poses {
  const rotations = new Float64Array(moments.length * JOINT_COUNT * 4);
  moments.forEach((joints, s) => joints.forEach((q, j) => writeQuat(rotations, s * JOINT_COUNT + j, q)));
  const n = moments.length;
  return {
    timesS: Float64Array.from({ length: n }, (_, s) => s), rotations, rootM: new Float64Array(n * 3), contacts: new Uint8Array(n * 2),
    confidence: new Float32Array(n * JOINT_COUNT).fill(0.75), state: new Uint8Array(n * JOINT_COUNT).fill(STATE_MEASURED),
    errorDeg: new Float32Array(n * JOINT_COUNT).fill(3), turnErrorDeg: new Float32Array(n * JOINT_COUNT).fill(Number.NaN), unsure: new Uint8Array(n * JOINT_COUNT),
  };
}

const still = (change: Partial<Record<JointName, Quat>> = {}): readonly Quat[] => JOINT_NAMES.map((name) => change[name] ?? IDENTITY);

/** The standard figure at 200 mm with these joints; the others are rigid. */
function puppet(joints: readonly (readonly [JointName, JointKind])[]): Armature {
  return checkArmature({ format: 'nudgebook-armature', version: 1, name: 'Test', heightMm: 200, joints: joints.map(([name, kind]) => ({ name, kind })) });
}

const anyPose = fc.array(anyQuat, { minLength: JOINT_COUNT, maxLength: JOINT_COUNT }).map((quats) =>
  quats.map((q, j): Quat => {
    if (PERFORMER_KIND[JOINT_NAMES[j]!] !== 'hinge') return q;
    const size = Math.hypot(q[0], q[3]);
    return size > 1e-6 ? [q[0] / size, 0, 0, q[3] / size] : IDENTITY;
  }));

/** Orientation on the stage, worked out joint by joint from the root. */
function onStage(of: (name: JointName) => Quat | undefined, name: JointName): Quat {
  const parent = JOINT_PARENT[name];
  const own = of(name) ?? IDENTITY;
  return parent === undefined ? own : multiply(onStage(of, parent), own);
}

describe('an armature with every joint', () => {
  it('takes every rotation as it is, hinges exactly', () => {
    fc.assert(fc.property(anyPose, (pose) => {
      const out = applyArmature(posesOf([pose]), ALL_SEEN, STANDARD_ARMATURE);
      expect(out.joints.map((joint) => joint.name)).toEqual(JOINT_NAMES);
      pose.forEach((q, j) => expect(angleBetween(readQuat(out.rotations, j), q)).toBeLessThan(1e-14));
    }), SEEDED);
  });
});

describe('a joint that is left out', () => {
  it('passes its turn on: the segments that are left keep their orientation on the stage', () => {
    const subset = fc.subarray([...JOINT_NAMES], { minLength: 1 });
    fc.assert(fc.property(anyPose, subset, (pose, names) => {
      const out = applyArmature(posesOf([pose]), ALL_SEEN, puppet(names.map((name) => [name, 'ball'])));
      const own = new Map(out.joints.map((joint, p) => [joint.name, readQuat(out.rotations, p)]));
      for (const name of names) {
        const kept = onStage((n) => own.get(n), name);
        expect(angleBetween(kept, onStage((n) => pose[JOINT[n]], name)), name).toBeLessThan(1e-13);
      }
    }), SEEDED);
  });

  it('counts in the state and the confidence of the joint that carries on for it', () => {
    const poses = posesOf([still(), still()]);
    poses.state[JOINT.spine] = STATE_BRIDGED;
    poses.confidence[JOINT.spine] = 0.125;
    poses.state[JOINT_COUNT + JOINT.spine] = STATE_MISSING;
    const out = applyArmature(poses, ALL_SEEN, puppet([['pelvis', 'ball'], ['chest', 'ball']]));
    expect([...out.state]).toEqual([STATE_MEASURED, STATE_BRIDGED, STATE_MEASURED, STATE_MISSING]);
    expect([...out.confidence]).toEqual([0.75, 0.125, 0.75, 0]);
    expect(out.rotations.slice(12).every(Number.isNaN)).toBe(true);
  });

  it('adds its error: as squares where it was measured apart, as it is where one measurement was shared; doubts of both', () => {
    const poses = posesOf([still()]);
    poses.errorDeg[JOINT.spine] = 4;
    poses.unsure[JOINT.spine] = 2;
    poses.unsure[JOINT.chest] = 1;
    const trunk = applyArmature(poses, ALL_SEEN, puppet([['pelvis', 'ball'], ['chest', 'ball']]));
    expect([...trunk.errorDeg]).toEqual([3, 7]);
    expect([...trunk.unsure]).toEqual([0, 3]);
    const whole = applyArmature(poses, ALL_SEEN, puppet([['chest', 'ball']]));
    expect(whole.errorDeg[0]).toBeCloseTo(Math.hypot(3, 7), 5);
  });

  it('if never observable, does not spoil the joint that carries on for it', () => {
    const seen = ALL_SEEN.slice();
    seen[JOINT.leftClavicle] = 0;
    const poses = posesOf([still()]);
    poses.confidence[JOINT.leftClavicle] = 0;
    const out = applyArmature(poses, seen, puppet([['chest', 'ball'], ['leftClavicle', 'ball']]));
    expect(out.joints.map((joint) => joint.observable)).toEqual([true, false]);
    const without = applyArmature(poses, seen, puppet([['chest', 'ball'], ['leftShoulder', 'ball']]));
    expect([without.joints[1]!.observable, without.confidence[1]]).toEqual([true, 0.75]);
  });
});

describe('kinds', () => {
  const q = multiply(fromAxisAngle([1, 0, 0], 0.5), fromAxisAngle([0, 0, 1], 0.8));

  it('a hinge takes the part about z, a swivel the part about y', () => {
    const swivelQ = multiply(fromAxisAngle([1, 0, 0], 0.5), fromAxisAngle([0, 1, 0], -0.6));
    const out = applyArmature(
      posesOf([still({ rightHip: q, head: swivelQ })]), ALL_SEEN, puppet([['neck', 'ball'], ['head', 'swivel'], ['rightHip', 'hinge']]),
    );
    const own = new Map(out.joints.map((joint, p) => [joint.name, readQuat(out.rotations, p)]));
    expect(angleBetween(own.get('rightHip')!, fromAxisAngle([0, 0, 1], 0.8))).toBeLessThan(1e-15);
    expect(angleBetween(own.get('head')!, fromAxisAngle([0, 1, 0], -0.6))).toBeLessThan(1e-15);
    // what the hip lost is said
    expect(out.joints.map(({ name }, p) => [name, out.flags[p]])).toContainEqual(['rightHip', FLAG_LOST]);
  });

  it('what a hinge can’t make is lost, and the knee below stays the performer’s knee', () => {
    const knee = fromAxisAngle([0, 0, 1], -1.1);
    const out = applyArmature(posesOf([still({ rightHip: q, rightKnee: knee })]), ALL_SEEN, puppet([['rightHip', 'hinge'], ['rightKnee', 'hinge']]));
    expect(angleBetween(readQuat(out.rotations, 1), knee)).toBeLessThan(1e-15);
  });

  it('never NaN: half a turn about another axis has no part about the hinge', () => {
    const out = applyArmature(posesOf([still({ head: [0, 1, 0, 0] })]), ALL_SEEN, puppet([['neck', 'ball'], ['head', 'hinge']]));
    expect(readQuat(out.rotations, 1)).toEqual(IDENTITY);
    expect(twistAngle(readQuat(out.rotations, 1), 3)).toBe(0);
  });

  it('the sign stays on one side over time', () => {
    const a = fromAxisAngle([0, 1, 0], 3);
    const b = fromAxisAngle([0, 1, 0], 3.3);
    const flipped: Quat = [-b[0], -b[1], -b[2], -b[3]];
    const out = applyArmature(posesOf([still({ pelvis: a }), still({ pelvis: flipped })]), ALL_SEEN, puppet([['pelvis', 'ball']]));
    const [p, r] = [readQuat(out.rotations, 0), readQuat(out.rotations, 1)];
    expect(p[0] * r[0] + p[1] * r[1] + p[2] * r[2] + p[3] * r[3]).toBeGreaterThan(0);
  });
});

describe('the error of a turn about a bone', () => {
  /** A right arm of three joints of one axis each, all driven by the performer's shoulder; the bone at rest hangs. */
  const arm = (axes: Readonly<Record<string, Triple>>): Armature => ({
    format: 'nudgebook-armature', version: 2, name: 'Arm',
    bones: [{ name: 'chest', lengthMm: 50 }, ...Object.keys(axes).map((name) => ({ name, lengthMm: 20, along: [0, -1, 0] as const }))],
    joints: [
      { name: 'chest', parent: null, child: 'chest' },
      ...Object.entries(axes).map(([name, axis], k, all) => ({ name, parent: k === 0 ? 'chest' : all[k - 1]![0], child: name, kind: 'hinge' as const, axis })),
    ],
    drives: Object.keys(axes).map((joint) => ({ joint, from: 'rightShoulder' as const, weight: 1 })),
  });
  const withErrors = (moments: number, turnDeg: (s: number) => number): Poses => {
    const poses = posesOf(Array.from({ length: moments }, () => still()));
    for (let s = 0; s < moments; s++) {
      poses.turnErrorDeg[s * JOINT_COUNT + JOINT.rightShoulder] = turnDeg(s);
      poses.errorDeg[s * JOINT_COUNT + JOINT.rightClavicle] = Number.NaN;
    }
    return poses;
  };

  it('goes to the joint whose axis lies along the bone, the pointing’s to those square to it, parts of both to a slanted one', () => {
    const poses = withErrors(1, () => 20);
    for (const [axis, expected] of [[[0, 1, 0], 20], [[0, 0, 1], 3], [[1, 0, 0], 3], [[0, 1, 1], Math.hypot(20, 3) / Math.SQRT2]] as const) {
      const out = applyArmature(poses, ALL_SEEN, arm({ turn: axis }));
      expect(out.errorDeg[1]).toBeCloseTo(expected, 5);
      expect(out.turnErrorDeg[1]).toBeNaN();
    }
    // two swivels in a row share the turn, and its error
    const shared = applyArmature(poses, ALL_SEEN, arm({ upper: [0, 1, 0], lower: [0, 1, 0] }));
    expect([...shared.errorDeg.slice(1)]).toEqual([10, 10]);
  });

  it('stands beside a ball’s, whose angle is where its bone points', () => {
    const out = applyArmature(withErrors(1, () => 40), ALL_SEEN, puppet([['chest', 'ball'], ['rightShoulder', 'ball'], ['rightElbow', 'hinge']]));
    const of = (name: JointName): number => out.joints.findIndex((joint) => joint.name === name);
    expect(out.errorDeg[of('rightShoulder')]).toBe(3);
    expect(out.turnErrorDeg[of('rightShoulder')]).toBe(40);
    expect([out.unsure[of('rightShoulder')], out.joints[of('rightShoulder')]!.turnHidden]).toEqual([0, false]);
    for (const name of ['chest', 'rightElbow'] as const) expect(out.turnErrorDeg[of(name)], name).toBeNaN();
  });

  it('beyond the limit makes what rests on it unsure, and nothing else', () => {
    const out = applyArmature(withErrors(5, (s) => (s < 2 ? TURN_LIMIT_DEG + 1 : TURN_LIMIT_DEG)), ALL_SEEN, arm({ swing: [0, 0, 1], turn: [0, 1, 0] }));
    expect([...out.unsure]).toEqual([0, 0, UNSURE_TURN, 0, 0, UNSURE_TURN, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
    expect(out.joints.map(({ turnHidden }) => turnHidden)).toEqual([false, false, false]);
  });

  it('is nothing to mark where a person has set a curve for the joint', () => {
    const curves = [{ joint: 'turn', axis: 'axis', keys: [{ timeS: 0, valueDeg: 5, ease: 'smooth' }] }] as const;
    for (const turnDeg of [(s: number) => (s < 2 ? 50 : 10), () => 50]) {
      const out = applyArmature(withErrors(5, turnDeg), ALL_SEEN, arm({ turn: [0, 1, 0] }), { drives: null, curves });
      expect(out.unsure.every((bits) => bits === 0)).toBe(true);
      expect(out.joints[1]!.turnHidden).toBe(false);
      expect(out.errorDeg[1]).toBe(50);
    }
  });

  it('beyond it most of the time is told once for the joint', () => {
    const out = applyArmature(withErrors(5, (s) => (s < 3 ? 50 : 10)), ALL_SEEN, arm({ swing: [0, 0, 1], turn: [0, 1, 0] }));
    expect(out.unsure.every((bits) => bits === 0)).toBe(true);
    expect(out.joints.map(({ turnHidden }) => turnHidden)).toEqual([false, false, true]);
    expect(turnWarnings(out.joints)).toEqual([expect.stringMatching(/more than ±30° most of the time: turn\. Bend the elbow or knee/)]);
    expect(turnWarnings(out.joints.slice(0, 2))).toEqual([]);
  });
});
