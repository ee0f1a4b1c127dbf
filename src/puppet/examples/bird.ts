/**
 * Sedge, a wading bird on two legs, 315 mm: the thigh lies forward under the body, the knee bends as a person's, the heel
 * joint half-way down bends the other way, the toes stand on the floor. Wings follow the arms, the neck has three
 * links. The performer's ankle moves the toes; the heel joint folds against the knee, so its gain is negative. Our own.
 */
import type { Armature, Bone, Drive, Joint, Triple } from '../armature.ts';
import { plusMinus } from './human.ts';

const bones: Bone[] = [
  { name: 'body', lengthMm: 60, along: [0.85, 0.5, 0], radiusMm: 26, massG: 120 },
  { name: 'breast', lengthMm: 30, along: [0.8, 0.6, 0], radiusMm: 22, massG: 60 },
  { name: 'lowerNeck', lengthMm: 35, along: [0.3, 1, 0], radiusMm: 7 },
  { name: 'middleNeck', lengthMm: 30, along: [0, 1, 0], radiusMm: 6 },
  { name: 'upperNeck', lengthMm: 25, along: [0.35, 1, 0], radiusMm: 6 },
  { name: 'skull', lengthMm: 18, along: [1, 0.2, 0], radiusMm: 9 },
  { name: 'beak', lengthMm: 45, along: [1, -0.15, 0], radiusMm: 2 },
  { name: 'tail', lengthMm: 35, along: [-1, 0.1, 0], radiusMm: 5 },
];
const joints: Joint[] = [
  { name: 'pelvis', parent: null, child: 'body' },
  { name: 'breast', parent: 'body', child: 'breast', limitsDeg: { forward: plusMinus(15), up: plusMinus(20), right: plusMinus(25) } },
  { name: 'lowerNeck', parent: 'breast', child: 'lowerNeck', limitsDeg: { forward: plusMinus(40), up: plusMinus(40), right: plusMinus(60) } },
  { name: 'middleNeck', parent: 'lowerNeck', child: 'middleNeck', limitsDeg: { forward: plusMinus(40), up: plusMinus(40), right: plusMinus(60) } },
  { name: 'upperNeck', parent: 'middleNeck', child: 'upperNeck', limitsDeg: { forward: plusMinus(40), up: plusMinus(40), right: plusMinus(60) } },
  { name: 'skull', parent: 'upperNeck', child: 'skull' },
  { name: 'beak', parent: 'skull', child: 'beak', kind: 'hinge', axis: [0, 0, -1], limitsDeg: { axis: [0, 35] } },
  { name: 'tail', parent: 'body', child: 'tail', at: 0, offsetMm: [-10, 0, 0] },
];
const drives: Drive[] = [
  { joint: 'breast', from: 'chest' },
  { joint: 'lowerNeck', from: 'neck' },
  { joint: 'middleNeck', from: 'head', weight: 1 },
  { joint: 'upperNeck', from: 'head', weight: 1 },
  { joint: 'skull', from: 'head', weight: 1 },
];
for (const side of ['left', 'right'] as const) {
  const out = side === 'left' ? -1 : 1;
  const toes: Triple = [1, 0, 0];
  bones.push(
    { name: `${side}Wing`, lengthMm: 50, along: [-0.5, -0.85, 0], radiusMm: 6, massG: 12 },
    { name: `${side}WingTip`, lengthMm: 55, along: [-0.8, -0.6, 0], radiusMm: 4, massG: 8 },
    { name: `${side}Thigh`, lengthMm: 42, along: [0.75, -0.66, 0], radiusMm: 9, massG: 16 },
    { name: `${side}Shank`, lengthMm: 78, along: [-0.5, -0.87, 0], radiusMm: 5, massG: 12 },
    { name: `${side}Tarsus`, lengthMm: 80, along: [0.15, -1, 0], radiusMm: 3, massG: 6 },
    {
      name: `${side}Toes`, lengthMm: 30, along: toes, radiusMm: 3, massG: 4,
      sole: { outlineMm: [[-16, -3], [24, -14], [30, 0], [24, 14], [-16, 3]], dropMm: 4 },
    },
  );
  joints.push(
    { name: `${side}Shoulder`, parent: 'body', child: `${side}Wing`, at: 0.8, offsetMm: [0, 8, out * 22] },
    { name: `${side}Elbow`, parent: `${side}Wing`, child: `${side}WingTip`, limitsDeg: { axis: [-3, 140] } },
    { name: `${side}Hip`, parent: 'body', child: `${side}Thigh`, at: 0.35, offsetMm: [0, -8, out * 16] },
    { name: `${side}Knee`, parent: `${side}Thigh`, child: `${side}Shank`, limitsDeg: { axis: [-50, 80] } },
    { name: `${side}Heel`, parent: `${side}Shank`, child: `${side}Tarsus`, kind: 'hinge', axis: [0, 0, 1], limitsDeg: { axis: [-42, 100] } },
    { name: `${side}Toes`, parent: `${side}Tarsus`, child: `${side}Toes`, kind: 'ball', limitsDeg: { forward: plusMinus(80), up: plusMinus(80), right: plusMinus(120) } },
  );
  drives.push(
    { joint: `${side}Knee`, from: `${side}Knee`, gain: 0.6 },
    { joint: `${side}Heel`, from: `${side}Knee`, gain: -1 },
    { joint: `${side}Toes`, from: `${side}Ankle` },
  );
}

export const SEDGE: Armature = {
  format: 'nudgebook-armature', version: 2, name: 'Sedge', bones, joints, drives,
};
