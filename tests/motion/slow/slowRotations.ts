/**
 * The plain way, kept to check the fast one against (tests/motion/slowReference.test.ts); small objects instead of typed arrays.
 *
 * Joint rotations from positions, one unbroken stretch at a time.
 *
 * Where landmarks don't tell two joints apart, the turn is shared by a rule and said so: pelvis → chest half to the spine
 * and half to the chest, chest → head half to the neck and half to the head. The clavicles can't be told from the tilt of
 * the chest and stay at rest. A wrist's rotation includes the roll of the forearm, since elbow and wrist show no roll.
 * Hinges are read as the angle between their bones and are therefore never negative.
 */
import {
  conjugate, fromAxisAngle, IDENTITY, multiply, power, readQuat, rotate, shortestArc, writeQuat, type Quat,
} from '../../../src/numeric/quaternion.ts';
import { angleBetweenVectors, cross, dot, scale, subtract, unit, type Vec3 } from '../../../src/numeric/vector3.ts';
import { LANDMARK } from '../../../src/pose/landmarks.ts';
import type { Stretch } from '../../../src/motion/gaps.ts';
import { slowHingeAxes, type LimbFrame } from './slowHingeAxis.ts';
import { FLEXION_SENSE, JOINT, JOINT_COUNT, type JointName } from '../../../src/motion/joints.ts';
import {
  chestOrientation, footOrientation, fromYZ, handOrientation, headOrientation, pelvisOrientation, pointsOf, type FramePoints,
} from './slowSegments.ts';

const Z: Vec3 = [0, 0, 1];
const DOWN: Vec3 = [0, -1, 0];

/** The limb's joints and landmarks, and the joint whose segment carries it. */
interface Limb {
  readonly side: 'left' | 'right';
  readonly kind: 'arm' | 'leg';
  readonly ball: JointName;
  readonly hinge: JointName;
  readonly end: JointName;
  /** Landmark indices of its three joints, from the trunk outward. */
  readonly points: readonly [number, number, number];
}

const LIMBS: readonly Limb[] = (['left', 'right'] as const).flatMap((side): Limb[] => [
  {
    side, kind: 'arm', ball: `${side}Shoulder`, hinge: `${side}Elbow`, end: `${side}Wrist`,
    points: [LANDMARK[`${side}Shoulder`], LANDMARK[`${side}Elbow`], LANDMARK[`${side}Wrist`]],
  },
  {
    side, kind: 'leg', ball: `${side}Hip`, hinge: `${side}Knee`, end: `${side}Ankle`,
    points: [LANDMARK[`${side}Hip`], LANDMARK[`${side}Knee`], LANDMARK[`${side}Ankle`]],
  },
]);

/**
 * Writes the rotations of all joints for the frames of one stretch.
 *
 * @param positionM positions `[T·33·3]`, stage axes
 * @param performerS T times of the performer's own clock
 * @param rotations `[T·J·4]`, written for the frames of the stretch
 * @returns number of frames in which some segment showed no direction (its landmarks fell together) and kept the one before
 */
export function slowJointRotations(
  positionM: Float64Array, performerS: Float64Array, stretch: Stretch, rotations: Float64Array,
): number {
  const frames = stretch.to - stretch.from + 1;
  const times = performerS.subarray(stretch.from, stretch.to + 1);
  const points = Array.from({ length: frames }, (_, k) => pointsOf(positionM, stretch.from + k));
  const doubtful = new Uint8Array(frames);
  const put = (k: number, joint: number, q: Quat): void => {
    writeQuat(rotations, (stretch.from + k) * JOINT_COUNT + joint, q);
  };

  const pelvis = orientations(points, pelvisOrientation, doubtful);
  const chest = orientations(points, chestOrientation, doubtful);
  const head = orientations(points, headOrientation, doubtful);
  for (let k = 0; k < frames; k++) {
    const p = readQuat(pelvis, k);
    const c = readQuat(chest, k);
    const trunkHalf = power(multiply(conjugate(p), c), 0.5);
    const headHalf = power(multiply(conjugate(c), readQuat(head, k)), 0.5);
    put(k, JOINT.pelvis, p);
    put(k, JOINT.spine, trunkHalf);
    put(k, JOINT.chest, trunkHalf);
    put(k, JOINT.neck, headHalf);
    put(k, JOINT.head, headHalf);
    put(k, JOINT.leftClavicle, IDENTITY);
    put(k, JOINT.rightClavicle, IDENTITY);
  }

  for (const limb of LIMBS) {
    const carrier = limb.kind === 'arm' ? chest : pelvis;
    const sense = FLEXION_SENSE[limb.hinge] ?? 1;
    const [ball, hingeJoint, end] = [JOINT[limb.ball], JOINT[limb.hinge], JOINT[limb.end]];
    const bones = limbBones(points, limb, doubtful);
    const axes = slowHingeAxes(bones.map((b, k) => limbFrame(b, limb.kind, sense, readQuat(carrier, k))), times);
    let lastEnd: Quat | undefined;
    for (let k = 0; k < frames; k++) {
      const { upper, lower } = bones[k]!;
      const upperQ = fromYZ(scale(upper, -1), axes[k]!) ?? IDENTITY;
      const hinge = fromAxisAngle(Z, sense * angleBetweenVectors(upper, lower));
      const lowerQ = multiply(upperQ, hinge);
      const endQ = limb.kind === 'arm'
        ? handOrientation(points[k]!, limb.side)
        : footOrientation(points[k]!, limb.side, rotate(lowerQ, Z));
      if (endQ === undefined) doubtful[k] = 1;
      lastEnd = endQ === undefined ? lastEnd ?? IDENTITY : multiply(conjugate(lowerQ), endQ);
      put(k, ball, multiply(conjugate(readQuat(carrier, k)), upperQ));
      put(k, hingeJoint, hinge);
      put(k, end, lastEnd);
    }
  }
  return doubtful.reduce((sum, one) => sum + one, 0);
}

/** Orientation of a segment in every frame `[n·4]`; where it can't be told, that of the frame before (at first the rest). */
function orientations(
  points: readonly FramePoints[], of: (p: FramePoints) => Quat | undefined, doubtful: Uint8Array,
): Float64Array {
  const out = new Float64Array(points.length * 4);
  let last: Quat = IDENTITY;
  points.forEach((p, k) => {
    const q = of(p);
    if (q === undefined) doubtful[k] = 1;
    last = q ?? last;
    writeQuat(out, k, last);
  });
  return out;
}

interface Bones {
  /** Unit vectors down the two bones. */
  readonly upper: Vec3;
  readonly lower: Vec3;
}

function limbBones(points: readonly FramePoints[], limb: Limb, doubtful: Uint8Array): Bones[] {
  let last: Bones = { upper: DOWN, lower: DOWN };
  return points.map((p, k) => {
    const middle = p(limb.points[1]);
    const upper = unit(subtract(middle, p(limb.points[0])));
    const lower = unit(subtract(p(limb.points[2]), middle));
    if (upper === undefined || lower === undefined) doubtful[k] = 1;
    last = { upper: upper ?? last.upper, lower: lower ?? last.lower };
    return last;
  });
}

/**
 * What one frame says about a limb's bending axis.
 *
 * Prior of the knee: the pelvis' axis to the right, as far as it is square to the thigh (nothing for a thigh straight
 * out to the side). Prior of the elbow: the chest's axis to the right, carried along by the smallest turn that takes the
 * hanging arm to where the arm is (the crease of the elbow of a hanging arm faces forward); that turn is not defined for
 * an arm straight up along the trunk, and the prior's weight falls to nothing there.
 */
function limbFrame({ upper, lower }: Bones, kind: 'arm' | 'leg', sense: 1 | -1, carrier: Quat): LimbFrame {
  const bend = scale(cross(upper, lower), sense);
  const flexionRad = angleBetweenVectors(upper, lower);
  if (kind === 'leg') return { along: upper, bend, flexionRad, prior: rotate(carrier, Z) };
  const down = rotate(carrier, DOWN);
  const weight = (1 + dot(down, upper)) / 2;
  const prior = scale(rotate(shortestArc(down, upper), rotate(carrier, Z)), weight);
  return { along: upper, bend, flexionRad, prior };
}
