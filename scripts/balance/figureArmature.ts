/**
 * The figure of a clip as an armature of Marla's height and weight, and its balance straight from the truth: places and
 * directions from the truth's own skeleton, masses added up by hand, the sole where the true ankle has it.
 */
import { marginOf, hullOf } from '../../src/balance/hull.ts';
import { JOINT_NAMES } from '../../src/motion/joints.ts';
import type { Armature, Bone, Joint, Triple } from '../../src/puppet/armature.ts';
import type { CompleteArmature } from '../../src/puppet/complete.ts';
import { BONE_OF_JOINT, soleOf } from '../../src/puppet/humanBody.ts';
import { add, length, scale, turn, type Vec3 } from '../clips/motion/rotation.ts';
import { placeTruth } from '../accuracy/truthBody.ts';
import type { Truth } from '../accuracy/truthFile.ts';

/** Top of the head over the joint that carries it, fingertips from the wrist, toes from the ankle: of the figures of the clips, metres. */
const HEAD_M = 0.12;
const HAND_M = 0.18;
const FOOT_M = 0.19;
const STATURE_M = 1.72;

const HEIGHT_MM = 280;
const MASS_G = 320;

/** Millimetres of the puppet for a metre of the figure. */
export const FIGURE_MM_PER_M = HEIGHT_MM / STATURE_M;

export function figureArmature({ body: { skeleton }, clip }: Truth): Armature {
  const k = FIGURE_MM_PER_M;
  const ankleM = skeleton.pelvis!.offsetM[1] - length(skeleton.leftKnee!.offsetM) - length(skeleton.leftAnkle!.offsetM);
  const ends: Readonly<Record<string, Triple>> = { head: [0, HEAD_M, 0], leftWrist: [0, -HAND_M, 0], rightWrist: [0, -HAND_M, 0], leftAnkle: [FOOT_M, 0, 0], rightAnkle: [FOOT_M, 0, 0] };
  const on: Readonly<Record<string, string>> = { chest: 'neck', pelvis: 'spine' };
  const bones = JOINT_NAMES.map((name): Bone => {
    const child = on[name] ?? JOINT_NAMES.find((other) => skeleton[other]!.parent === name);
    const end = ends[name] ?? skeleton[child!]!.offsetM;
    const foot = name.endsWith('Ankle');
    return { name: BONE_OF_JOINT[name], lengthMm: length(end) * k, along: end, ...(foot ? { sole: soleOf(FOOT_M * k, ankleM * k) } : {}) };
  });
  const joints = JOINT_NAMES.map((name): Joint => {
    const { parent, offsetM } = skeleton[name]!;
    return parent === null
      ? { name, parent: null, child: BONE_OF_JOINT[name] }
      : { name, parent: BONE_OF_JOINT[parent as keyof typeof BONE_OF_JOINT], child: BONE_OF_JOINT[name], at: 0, offsetMm: scale(offsetM, k) };
  });
  return { format: 'nudgebook-armature', version: 2, name: `The figure of ${clip}`, totalMassG: MASS_G, bones, joints };
}

/** Margin of a frame, mm of the puppet, over the feet that truly stand; NaN where none does. */
export function marginOfTruth(truth: Truth, frame: number, armature: CompleteArmature): number {
  const body = placeTruth(truth, frame);
  const k = FIGURE_MM_PER_M;
  const on = (joint: string, localMm: Vec3): Vec3 => add(scale(body(joint).position, k), turn(body(joint).rotation, localMm));
  let mass = 0;
  let sum: Vec3 = [0, 0, 0];
  const ground: number[] = [];
  armature.bones.forEach(({ massG, massAt, along, lengthMm, sole }, p) => {
    const joint = armature.joints[p]!.name;
    mass += massG;
    sum = add(sum, scale(on(joint, scale(along, lengthMm * massAt)), massG));
    const stands = joint === 'leftAnkle' ? truth.leftFootOnFloor[frame] : joint === 'rightAnkle' ? truth.rightFootOnFloor[frame] : 0;
    if (sole === null || stands !== 1) return;
    for (const [x, z] of sole.outlineMm) {
      const [px, , pz] = on(joint, [x, -sole.dropMm, z]);
      ground.push(px, pz);
    }
  });
  if (ground.length === 0) return Number.NaN;
  return marginOf(hullOf(ground), sum[0] / mass, sum[2] / mass).distance;
}
