/**
 * Bramble, a four-legged beast of the size of a shoe, back level at rest. A performer has two legs: the hind legs follow
 * them, each foreleg follows the leg of the other side (diagonal pairs, as in a trot). The performer's arms move nothing;
 * the head follows the head, ears and tail have curves of their own. Our own.
 */
import type { Armature, Bone, Drive, Joint } from '../armature.ts';
import { plusMinus } from './human.ts';

const bones: Bone[] = [
  { name: 'pelvis', lengthMm: 30, along: [1, 0, 0], radiusMm: 20, massG: 90 },
  { name: 'loin', lengthMm: 45, along: [1, 0.05, 0], radiusMm: 22, massG: 110 },
  { name: 'ribs', lengthMm: 60, along: [1, 0.1, 0], radiusMm: 26, massG: 160 },
  { name: 'neck', lengthMm: 38, along: [0.7, 0.8, 0], radiusMm: 13, massG: 40 },
  { name: 'head', lengthMm: 48, along: [1, -0.35, 0], radiusMm: 15, massG: 55 },
  { name: 'tail', lengthMm: 50, along: [-1, -0.4, 0], radiusMm: 5, massG: 10 },
  { name: 'leftEar', lengthMm: 20, along: [0, 1, -0.4], radiusMm: 3, massG: 2 },
  { name: 'rightEar', lengthMm: 20, along: [0, 1, 0.4], radiusMm: 3, massG: 2 },
];
const joints: Joint[] = [
  { name: 'pelvis', parent: null, child: 'pelvis' },
  { name: 'loin', parent: 'pelvis', child: 'loin', limitsDeg: { forward: plusMinus(25), up: plusMinus(30), right: plusMinus(35) } },
  { name: 'ribs', parent: 'loin', child: 'ribs', limitsDeg: { forward: plusMinus(25), up: plusMinus(30), right: plusMinus(35) } },
  { name: 'neck', parent: 'ribs', child: 'neck', limitsDeg: { forward: plusMinus(45), up: plusMinus(60), right: plusMinus(70) } },
  { name: 'head', parent: 'neck', child: 'head', limitsDeg: { forward: plusMinus(45), up: plusMinus(60), right: plusMinus(60) } },
  { name: 'tail', parent: 'pelvis', child: 'tail', at: 0, offsetMm: [-8, 8, 0], kind: 'wire' },
  { name: 'leftEar', parent: 'head', child: 'leftEar', at: 0.1, offsetMm: [0, 12, -9], kind: 'swivel' },
  { name: 'rightEar', parent: 'head', child: 'rightEar', at: 0.1, offsetMm: [0, 12, 9], kind: 'swivel' },
];
const drives: Drive[] = [
  { joint: 'pelvis', from: 'pelvis', gain: 0.3 },
  { joint: 'loin', from: 'spine', gain: 0.6 },
  { joint: 'ribs', from: 'chest', gain: 0.6 },
];
for (const side of ['left', 'right'] as const) {
  const other = side === 'left' ? 'right' : 'left';
  const out = side === 'left' ? -1 : 1;
  const sole = { outlineMm: [[-9, -9], [14, -9], [16, 0], [14, 9], [-9, 9]], dropMm: 8 } as const;
  bones.push(
    { name: `${side}Thigh`, lengthMm: 48, along: [0.35, -1, 0], radiusMm: 12, massG: 30 },
    { name: `${side}Shank`, lengthMm: 46, along: [-0.6, -1, 0], radiusMm: 8, massG: 16 },
    { name: `${side}Hock`, lengthMm: 34, along: [0.15, -1, 0], radiusMm: 6, massG: 9 },
    { name: `${side}HindPaw`, lengthMm: 16, along: [1, 0, 0], radiusMm: 6, massG: 6, sole },
    { name: `${side}Blade`, lengthMm: 40, along: [0.4, -1, 0], radiusMm: 11, massG: 26 },
    { name: `${side}Foreleg`, lengthMm: 42, along: [-0.3, -1, 0], radiusMm: 8, massG: 14 },
    { name: `${side}Pastern`, lengthMm: 48.4, along: [0.05, -1, 0], radiusMm: 6, massG: 9 },
    { name: `${side}ForePaw`, lengthMm: 16, along: [1, 0, 0], radiusMm: 6, massG: 6, sole },
  );
  joints.push(
    { name: `${side}Hip`, parent: 'pelvis', child: `${side}Thigh`, at: 0.3, offsetMm: [0, -6, out * 16] },
    { name: `${side}Knee`, parent: `${side}Thigh`, child: `${side}Shank`, kind: 'hinge', axis: [0, 0, -1], limitsDeg: { axis: [-45, 95] } },
    { name: `${side}Hock`, parent: `${side}Shank`, child: `${side}Hock`, kind: 'hinge', axis: [0, 0, 1], limitsDeg: { axis: [-35, 95] } },
    { name: `${side}HindPaw`, parent: `${side}Hock`, child: `${side}HindPaw`, kind: 'ball' },
    { name: `${side}Shoulder`, parent: 'ribs', child: `${side}Blade`, at: 0.85, offsetMm: [0, -6, out * 17] },
    { name: `${side}Elbow`, parent: `${side}Blade`, child: `${side}Foreleg`, kind: 'hinge', axis: [0, 0, 1], limitsDeg: { axis: [-35, 100] } },
    { name: `${side}Wrist`, parent: `${side}Foreleg`, child: `${side}Pastern`, kind: 'hinge', axis: [0, 0, -1], limitsDeg: { axis: [-20, 100] } },
    { name: `${side}ForePaw`, parent: `${side}Pastern`, child: `${side}ForePaw`, kind: 'ball' },
  );
  drives.push(
    { joint: `${side}Hip`, from: `${side}Hip`, gain: 0.7 },
    { joint: `${side}Knee`, from: `${side}Knee`, gain: 1 },
    { joint: `${side}Hock`, from: `${side}Knee`, gain: -1 },
    { joint: `${side}HindPaw`, from: `${side}Ankle` },
    { joint: `${side}Shoulder`, from: `${other}Hip`, gain: 0.7 },
    { joint: `${side}Elbow`, from: `${other}Knee`, gain: -1 },
    { joint: `${side}Wrist`, from: `${other}Knee`, gain: 1 },
    { joint: `${side}ForePaw`, from: `${other}Ankle` },
  );
}

export const BRAMBLE: Armature = { format: 'nudgebook-armature', version: 2, name: 'Bramble', bones, joints, drives };
