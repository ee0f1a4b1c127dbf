/** The exact pose of a clip's figure as the core takes poses: what a faultless fit would hand to the puppet. */
import { JOINT_COUNT, JOINT_NAMES } from '../../src/motion/joints.ts';
import { STATE_MEASURED, type Motion } from '../../src/motion/motion.ts';
import { sampleMotion } from '../../src/timing/sampleMotion.ts';
import type { Poses } from '../../src/timing/poses.ts';
import { aboutY, aboutZ, mul, turn, type Quat } from '../clips/motion/rotation.ts';
import type { Truth } from '../accuracy/truthFile.ts';

/** Hip over the floor with straight legs, of the figure's own skeleton, metres. */
export function trueLegM({ body: { skeleton } }: Truth): number {
  return skeleton.pelvis!.offsetM[1];
}

/** The figure's poses at the clip's frames, turned so that X leads to the clip's camera. Feet stand where the truth says so. */
export function trueMotion(truth: Truth): Motion {
  const { frames, camera: { azimuthDeg } } = truth;
  const rotations = new Float64Array(frames * JOINT_COUNT * 4);
  const rootM = new Float64Array(frames * 3);
  const facing = aboutY(azimuthDeg);
  for (let t = 0; t < frames; t++) {
    JOINT_NAMES.forEach((name, j) => {
      const joint = truth.joints[name]!;
      const own: Quat = joint.kind === 'ball' ? joint.rotation[t]! : aboutZ((name.endsWith('Knee') ? -1 : 1) * joint.flexionDeg[t]!);
      rotations.set(name === 'pelvis' ? mul(facing, own) : own, (t * JOINT_COUNT + j) * 4);
    });
    rootM.set(turn(facing, truth.rootM[t]!), t * 3);
  }
  return {
    timesS: Float64Array.from(truth.timesS), rotations, rootM,
    contacts: Uint8Array.from({ length: frames * 2 }, (_, i) => (i % 2 === 0 ? truth.leftFootOnFloor : truth.rightFootOnFloor)[i >> 1]!),
    confidence: new Float32Array(frames * JOINT_COUNT).fill(1), state: new Uint8Array(frames * JOINT_COUNT).fill(STATE_MEASURED),
    errorDeg: new Float32Array(frames * JOINT_COUNT), turnErrorDeg: new Float32Array(frames * JOINT_COUNT), unsure: new Uint8Array(frames * JOINT_COUNT),
    observable: new Uint8Array(JOINT_COUNT).fill(1), legLengthM: trueLegM(truth), fitted: true, usedCutoffHz: null, warnings: [],
  };
}

/** The same at other moments. */
export function truePosesAt(truth: Truth, atS: Float64Array): Poses {
  return sampleMotion(trueMotion(truth), atS);
}
