/** The true motion that stands beside a clip, as a motion of the program's own: nothing in it is measured, nothing smoothed. */
import { JOINT, JOINT_COUNT, type JointName } from '../../src/motion/joints.ts';
import type { Motion } from '../../src/motion/motion.ts';
import { fromAxisAngle, type Quat, writeQuat } from '../../src/numeric/quaternion.ts';
import type { Truth } from '../accuracy/truthFile.ts';

/** Hinges are turned about Z whichever way they bend: only how far and how fast they turn is to be read from it. */
export function truthMotion({ frames, timesS, joints }: Truth): Motion {
  const rotations = new Float64Array(frames * JOINT_COUNT * 4);
  const observable = new Uint8Array(JOINT_COUNT);
  for (const [name, j] of Object.entries(JOINT) as [JointName, number][]) {
    const joint = joints[name];
    observable[j] = joint === undefined ? 0 : 1;
    for (let t = 0; t < frames; t++) {
      const q: Quat = joint === undefined ? [1, 0, 0, 0] : joint.kind === 'ball' ? joint.rotation[t]! : fromAxisAngle([0, 0, 1], (joint.flexionDeg[t]! * Math.PI) / 180);
      writeQuat(rotations, t * JOINT_COUNT + j, q);
    }
  }
  return {
    timesS: Float64Array.from(timesS), rotations, observable,
    rootM: new Float64Array(frames * 3), confidence: new Float32Array(frames * JOINT_COUNT).fill(1), state: new Uint8Array(frames * JOINT_COUNT),
    errorDeg: new Float32Array(frames * JOINT_COUNT), turnErrorDeg: new Float32Array(frames * JOINT_COUNT), unsure: new Uint8Array(frames * JOINT_COUNT), contacts: new Uint8Array(frames * 2),
    legLengthM: 0.92, fitted: false, usedCutoffHz: null, warnings: [],
  };
}
