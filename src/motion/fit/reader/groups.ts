/**
 * The reader looks at an arm, a leg and the trunk one by one: each network is told only what concerns its part, which a few
 * thousand pictures are enough to teach.
 */
import type { LandmarkName } from '../../../pose/landmarks.ts';
import { PER_LANDMARK, SIGHT_NAMES, SIGHT_SIZE } from './sight.ts';

export interface Group {
  readonly name: string;
  /** Landmarks of which everything is told, places counted from the first. */
  readonly own: readonly LandmarkName[];
  /** Landmarks of which only the place is told. */
  readonly others: readonly LandmarkName[];
  /** Pairs whose unit direction and length across the view are told as well. */
  readonly bones: readonly (readonly [LandmarkName, LandmarkName])[];
  /** Which of the reader's outputs (readTrack.ts) it answers. */
  readonly outputs: readonly number[];
}

export const GROUPS: readonly Group[] = [
  {
    name: 'arm', own: ['leftShoulder', 'leftElbow', 'leftWrist', 'leftPinky', 'leftIndex', 'leftThumb'], others: ['rightShoulder', 'leftHip', 'rightHip', 'nose'],
    bones: [['leftShoulder', 'leftElbow'], ['leftElbow', 'leftWrist'], ['leftWrist', 'leftIndex']], outputs: [0, 1, 2, 3, 4, 5, 12, 13, 19],
  },
  {
    name: 'leg', own: ['leftHip', 'leftKnee', 'leftAnkle', 'leftHeel', 'leftFootIndex'], others: ['rightHip', 'leftShoulder', 'rightShoulder', 'rightKnee', 'rightAnkle'],
    bones: [['leftHip', 'leftKnee'], ['leftKnee', 'leftAnkle'], ['leftAnkle', 'leftFootIndex']], outputs: [6, 7, 8, 9, 10, 11, 14, 15, 20],
  },
  {
    name: 'trunk', own: ['leftHip', 'rightHip', 'leftShoulder', 'rightShoulder', 'nose', 'leftEar', 'rightEar'], others: ['leftKnee', 'rightKnee', 'leftAnkle', 'rightAnkle'],
    bones: [['rightHip', 'leftHip'], ['rightShoulder', 'leftShoulder']], outputs: [16, 17, 18],
  },
];

/** Inputs of a group's network: the half that looks is the last one. */
export const inputCount = ({ own, others, bones }: Group): number => PER_LANDMARK * own.length + 3 * others.length + 4 * bones.length + 1;

/** Where the sight has what a group looks at: looked up once, since every frame asks. */
interface Looks {
  readonly own: readonly number[];
  readonly others: readonly number[];
  readonly bones: readonly (readonly [number, number])[];
}

const at = (name: LandmarkName): number => SIGHT_NAMES.indexOf(name) * PER_LANDMARK;
const LOOKS = new Map<Group, Looks>(GROUPS.map((group) => [group, {
  own: group.own.map(at), others: group.others.map(at), bones: group.bones.map(([from, to]) => [at(from), at(to)] as const),
}]));

/** @param group one of GROUPS @param sight [SIGHT_SIZE] all of a frame @param out [inputCount(group)] */
export function writeInputs(group: Group, sight: Float64Array, out: Float64Array): void {
  const { own, others, bones } = LOOKS.get(group)!;
  const base = own[0]!;
  let o = 0;
  for (const from of own) {
    for (let k = 0; k < PER_LANDMARK; k++) out[o++] = sight[from + k]! - (k < 3 ? sight[base + k]! : 0);
  }
  for (const from of others) for (let k = 0; k < 3; k++) out[o++] = sight[from + k]! - sight[base + k]!;
  for (const [from, to] of bones) {
    const x = sight[to]! - sight[from]!;
    const y = sight[to + 1]! - sight[from + 1]!;
    const z = sight[to + 2]! - sight[from + 2]!;
    const size = Math.sqrt(x * x + y * y + z * z) || 1e-9;
    out[o++] = x / size;
    out[o++] = y / size;
    out[o++] = z / size;
    out[o++] = Math.sqrt(x * x + y * y);
  }
  out[o] = sight[SIGHT_SIZE - 1]!;
}
