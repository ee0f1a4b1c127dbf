/**
 * Bones and joints of a body built like a person's, from the lengths one measures with a ruler.
 */
import { JOINT_NAMES, type JointName } from '../motion/joints.ts';
import type { Armature, Bone, Joint, Triple } from './armature.ts';

/** Millimetres; one side. */
export interface HumanMeasures {
  /** From between the hips to the waist, on to the lower end of the ribs, on to between the shoulders. */
  readonly pelvis: number;
  readonly abdomen: number;
  readonly chest: number;
  readonly neck: number;
  readonly head: number;
  /** From the middle of the chest to the shoulder. */
  readonly shoulderHalf: number;
  readonly upperArm: number;
  readonly forearm: number;
  readonly hand: number;
  /** From the middle to a hip. */
  readonly hipHalf: number;
  readonly thigh: number;
  readonly shank: number;
  /** From the ankle joint forward to the toes' tip, and down to the floor. */
  readonly foot: number;
  readonly ankleHeight: number;
}

/**
 * The standard figure's measures as parts of its height. Limbs: de Leva 1996, table 4, males, by 1741 mm of stature; ankle
 * height 0.039 (Drillis & Contini 1966, in Winter; from memory). The trunk's 515.5 mm are shared by the same table's
 * parts, the rest of the height by neck and head 80 : 215, half widths and the part of the foot before the ankle by our choice.
 */
export const PROPORTIONS: HumanMeasures = {
  pelvis: 145.7 / 1741, abdomen: 215.5 / 1741, chest: 154.3 / 1741, neck: 80 / 1741, head: 215 / 1741,
  shoulderHalf: 190 / 1741, upperArm: 281.7 / 1741, forearm: 268.9 / 1741, hand: 187.9 / 1741,
  hipHalf: 90 / 1741, thigh: 422.2 / 1741, shank: 440.3 / 1741, foot: 194 / 1741, ankleHeight: 0.039,
};

/** The bone that each performer's joint turns. */
export const BONE_OF_JOINT: Readonly<Record<JointName, string>> = Object.fromEntries(JOINT_NAMES.map((name) => {
  const part = { Clavicle: 'Clavicle', Shoulder: 'UpperArm', Elbow: 'Forearm', Wrist: 'Hand', Hip: 'Thigh', Knee: 'Shank', Ankle: 'Foot' };
  const [side, joint] = name.startsWith('left') ? ['left', name.slice(4)] : name.startsWith('right') ? ['right', name.slice(5)] : ['', name];
  return [name, side === '' ? (name === 'spine' ? 'abdomen' : name) : side + part[joint as keyof typeof part]];
})) as Record<JointName, string>;

const UP: Triple = [0, 1, 0];
const DOWN: Triple = [0, -1, 0];

/** All bones and joints, named as the performer's, every joint of the performer's kind; without clavicles if so wished. */
export function humanBody(m: HumanMeasures, clavicles = true): { readonly bones: readonly Bone[]; readonly joints: readonly Joint[] } {
  const bones: Bone[] = [
    { name: 'pelvis', lengthMm: m.pelvis, along: UP },
    { name: 'abdomen', lengthMm: m.abdomen, along: UP },
    { name: 'chest', lengthMm: m.chest, along: UP },
    { name: 'neck', lengthMm: m.neck, along: UP },
    { name: 'head', lengthMm: m.head, along: UP },
  ];
  const joints: Joint[] = [
    { name: 'pelvis', parent: null, child: 'pelvis' },
    { name: 'spine', parent: 'pelvis', child: 'abdomen' },
    { name: 'chest', parent: 'abdomen', child: 'chest' },
    { name: 'neck', parent: 'chest', child: 'neck' },
    { name: 'head', parent: 'neck', child: 'head' },
  ];
  for (const side of ['left', 'right'] as const) {
    const out = side === 'left' ? -1 : 1;
    if (clavicles) {
      bones.push({ name: `${side}Clavicle`, lengthMm: m.shoulderHalf, along: [0, 0, out] });
      joints.push({ name: `${side}Clavicle`, parent: 'chest', child: `${side}Clavicle` });
    }
    bones.push(
      { name: `${side}UpperArm`, lengthMm: m.upperArm, along: DOWN },
      { name: `${side}Forearm`, lengthMm: m.forearm, along: DOWN },
      { name: `${side}Hand`, lengthMm: m.hand, along: DOWN },
    );
    joints.push(
      clavicles
        ? { name: `${side}Shoulder`, parent: `${side}Clavicle`, child: `${side}UpperArm` }
        : { name: `${side}Shoulder`, parent: 'chest', child: `${side}UpperArm`, offsetMm: [0, 0, out * m.shoulderHalf] },
      { name: `${side}Elbow`, parent: `${side}UpperArm`, child: `${side}Forearm` },
      { name: `${side}Wrist`, parent: `${side}Forearm`, child: `${side}Hand` },
    );
  }
  for (const side of ['left', 'right'] as const) {
    const out = side === 'left' ? -1 : 1;
    bones.push(
      { name: `${side}Thigh`, lengthMm: m.thigh, along: DOWN },
      { name: `${side}Shank`, lengthMm: m.shank, along: DOWN },
      { name: `${side}Foot`, lengthMm: m.foot, along: [1, 0, 0], sole: soleOf(m.foot, m.ankleHeight) },
    );
    joints.push(
      { name: `${side}Hip`, parent: 'pelvis', child: `${side}Thigh`, at: 0, offsetMm: [0, 0, out * m.hipHalf] },
      { name: `${side}Knee`, parent: `${side}Thigh`, child: `${side}Shank` },
      { name: `${side}Ankle`, parent: `${side}Shank`, child: `${side}Foot` },
    );
  }
  return { bones, joints };
}

/** A plain sole: a third of the foot's length behind the joint, a fifth to either side (our choice), cut at the front corners. */
export function soleOf(footMm: number, dropMm: number): NonNullable<Bone['sole']> {
  const [back, half] = [-footMm / 3, footMm / 5];
  const corners: readonly (readonly [number, number])[] = [
    [back, -half * 0.8], [footMm * 0.7, -half], [footMm, -half * 0.6], [footMm, half * 0.6], [footMm * 0.7, half], [back, half * 0.8],
  ];
  return { outlineMm: corners.map(([x, z]) => [tenth(x), tenth(z)] as const), dropMm };
}

function tenth(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A document of such a body. */
export function humanArmature(name: string, m: HumanMeasures, more: Partial<Armature> = {}): Armature {
  return { format: 'nudgebook-armature', version: 2, name, ...humanBody(m), ...more };
}
