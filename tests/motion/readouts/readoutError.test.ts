/** The error of a readout, against what spherical trigonometry says of it, and against turns that are drawn at random. */
import { describe, expect, it } from 'vitest';
import { JOINT, JOINT_COUNT, JOINT_NAMES, type JointName } from '../../../src/motion/joints.ts';
import { STATE_MEASURED, STATE_MISSING } from '../../../src/motion/motion.ts';
import { READOUTS } from '../../../src/motion/readouts/catalogue.ts';
import type { RotationOf } from '../../../src/motion/readouts/readout.ts';
import { errorAxes, type JointErrors, readoutErrorDeg } from '../../../src/motion/readouts/readoutError.ts';
import { readingsOf } from '../../../src/motion/readouts/readings.ts';
import { JOINT_CLASS } from '../../../src/motion/trust/errorClasses.ts';
import { fromEuler } from '../../../src/numeric/euler.ts';
import { fromAxisAngle, fromRotationVector, IDENTITY, multiply, type Quat, writeQuat } from '../../../src/numeric/quaternion.ts';
import { turnX, turnZ } from '../figure.ts';

const RAD = Math.PI / 180;
const posing = (joints: Partial<Record<JointName, Quat>>): RotationOf => (joint) => joints[joint] ?? IDENTITY;
const readout = (id: string): (typeof READOUTS)[number] => READOUTS.find((one) => one.id === id)!;
/** Directions off by so much, and turns by nothing. */
const pointing = (errorDeg: number): JointErrors => ({ errorDeg, turnErrorDeg: 0 });
const raised = (plane: number, elevation: number): Quat => fromEuler('YXY', [plane * RAD, -elevation * RAD, 20 * RAD]);

describe('the error of a readout', () => {
  it('of a hinge, and of how far an arm is raised, is the joint’s own', () => {
    expect(readoutErrorDeg(readout('rightElbow.flexion'), posing({ rightElbow: turnZ(1) }), pointing(6))).toBeCloseTo(6, 3);
    expect(readoutErrorDeg(readout('leftKnee.flexion'), posing({ leftKnee: turnZ(-1) }), pointing(6))).toBeCloseTo(6, 3);
    for (const elevation of [25, 90, 150]) {
      expect(readoutErrorDeg(readout('rightShoulder.elevation'), posing({ rightShoulder: raised(40, elevation) }), pointing(8))).toBeCloseTo(8, 2);
    }
  });

  it('of the plane an arm is raised in grows by 1 / sin of the elevation, as directions do toward a pole', () => {
    for (const elevation of [20, 60, 90, 140]) {
      expect(readoutErrorDeg(readout('rightShoulder.plane'), posing({ rightShoulder: raised(70, elevation) }), pointing(5))).toBeCloseTo(5 / Math.sin(elevation * RAD), 2);
      expect(readoutErrorDeg(readout('rightShoulder.heading'), posing({ rightShoulder: raised(70, elevation) }), pointing(5))).toBeCloseTo(5 / Math.sin(elevation * RAD), 2);
    }
  });

  it('of a whole turn that two joints share is the whole one', () => {
    expect(readoutErrorDeg(readout('spine.bend'), posing({ chest: turnZ(-0.3) }), pointing(4))).toBeCloseTo(8, 3);
    expect(readoutErrorDeg(readout('head.nod'), posing({ head: turnZ(0.3) }), pointing(4))).toBeCloseTo(8, 3);
    expect(readoutErrorDeg(readout('pelvis.side'), posing({ pelvis: turnX(0.2) }), pointing(4))).toBeCloseTo(4, 3);
  });

  it('of a turn about a limb’s own bone is that turn’s own; where a bone points has no part of it', () => {
    const turned = { errorDeg: 0, turnErrorDeg: 20 };
    const of = posing({ rightShoulder: raised(40, 80), leftHip: turnZ(0.7), leftWrist: fromAxisAngle([0, 1, 0], 0.4), leftAnkle: turnZ(0.2) });
    for (const id of ['rightShoulder.rotation', 'rightShoulder.twist', 'leftHip.rotation', 'leftHip.twist', 'leftForearm.pronation']) {
      expect(readoutErrorDeg(readout(id), of, turned), id).toBeCloseTo(20, 2);
    }
    for (const id of ['rightShoulder.elevation', 'rightShoulder.plane', 'rightShoulder.swing', 'leftHip.flexion', 'leftHip.adduction', 'leftKnee.flexion', 'leftAnkle.rotation']) {
      expect(readoutErrorDeg(readout(id), of, turned), id).toBeCloseTo(0, 2);
    }
    // toes inward is where the foot points
    expect(readoutErrorDeg(readout('leftAnkle.rotation'), of, pointing(5))).toBeCloseTo(5, 1);
  });

  it('is not known of what is inferred, and of joints without one', () => {
    const of = posing({ rightShoulder: raised(40, 80) });
    expect(readoutErrorDeg(readout('rightClavicle.elevation'), of, pointing(5))).toBeNaN();
    for (const id of ['rightShoulder.elevation', 'rightShoulder.rotation']) {
      expect(readoutErrorDeg(readout(id), of, { errorDeg: Number.NaN, turnErrorDeg: Number.NaN }), id).toBeNaN();
    }
  });

  it('is as wide as the readouts of turns that are off by so much, for every readout that has one', () => {
    const sigma = 0.5;
    const TURN_TIMES = 3;
    let seed = 7;
    const random = (): number => {
      seed = (seed * 16807) % 2147483647;
      return seed / 2147483647;
    };
    const normal = (): number => Math.sqrt(-2 * Math.log(random())) * Math.cos(2 * Math.PI * random());
    const pose: Partial<Record<JointName, Quat>> = Object.fromEntries(JOINT_NAMES.map((name) => [
      name, /Elbow/.test(name) ? turnZ(0.9) : /Knee/.test(name) ? turnZ(-0.7) : fromRotationVector([0.5 + random() * 0.2, 0.2, 0.4]),
    ]));
    const of = posing(pose);
    for (const one of READOUTS.filter(({ from }) => from === 'measured')) {
      const at = one.read(of).rad;
      const told = readoutErrorDeg(one, of, { errorDeg: sigma, turnErrorDeg: TURN_TIMES * sigma });
      const share = /^(chest|head)$/.test(one.joint) ? 2 : 1;
      let squares = 0;
      const tries = 3000;
      for (let k = 0; k < tries; k++) {
        const off: [number, number, number] = [0, 0, 0];
        const { bone } = JOINT_CLASS[JOINT[one.joint]]!;
        const axes = [...errorAxes(one.joint).map((axis) => [axis, share] as const), ...(bone === null ? [] : [[bone, TURN_TIMES] as const])];
        for (const [axis, times] of axes) {
          const by = normal() * sigma * times * RAD;
          for (const i of [0, 1, 2] as const) off[i] += axis[i] * by;
        }
        const turned = multiply(pose[one.joint]!, fromRotationVector(off));
        squares += (one.read((joint) => (joint === one.joint ? turned : of(joint))).rad - at) ** 2;
      }
      // one sigma of 3000 draws is 1.3 % of it; four of them
      expect(Math.abs(Math.sqrt(squares / tries) / RAD / told - 1), one.id).toBeLessThan(0.06);
    }
  });
});

describe('readings of a joint', () => {
  it('are one for each readout of it, with no number where there is no pose', () => {
    const rotations = new Float64Array(2 * JOINT_COUNT * 4);
    for (let at = 0; at < 2 * JOINT_COUNT; at++) writeQuat(rotations, at, IDENTITY);
    const state = new Uint8Array(2 * JOINT_COUNT).fill(STATE_MEASURED);
    state[JOINT_COUNT + JOINT_NAMES.indexOf('leftHip')] = STATE_MISSING;
    const readings = readingsOf({ rotations, state, errorDeg: new Float32Array(2 * JOINT_COUNT).fill(3), turnErrorDeg: new Float32Array(2 * JOINT_COUNT).fill(12), unsure: new Uint8Array(2 * JOINT_COUNT) }, 'leftHip');
    expect(readings.readings.map(({ id }) => id)).toEqual(READOUTS.filter(({ joint }) => joint === 'leftHip').map(({ id }) => id));
    expect([...readings.state]).toEqual([STATE_MEASURED, STATE_MISSING]);
    expect(readings.readings[0]!.errorDeg[0]).toBeCloseTo(3, 3);
    expect(readings.readings.find(({ id }) => id === 'leftHip.rotation')!.errorDeg[0]).toBeCloseTo(12, 3);
    for (const { deg, errorDeg } of readings.readings) {
      expect(deg[0]).not.toBeNaN();
      expect(deg[1]).toBeNaN();
      expect(errorDeg[1]).toBeNaN();
    }
  });
});
