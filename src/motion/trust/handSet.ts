/**
 * Errors near what a person set by hand: small at its moment, and back to what the footage allows within some tenths of a second.
 */
import { LANDMARK } from '../../pose/landmarks.ts';
import type { Corrections } from '../corrections/corrections.ts';
import { JOINT, JOINT_COUNT, JOINT_NAMES, type JointName } from '../joints.ts';
import { JOINT_LANDMARKS } from '../jointLandmarks.ts';
import { OPPOSITE_LANDMARK } from '../bodyAxes.ts';
import { UNSURE_AT_LENS } from './unsure.ts';

/** One sigma of an angle typed by eye, and of one that follows from a joint put in its place in the picture, degrees. Our choice. */
export const TYPED_DEG = 3;
export const PLACED_DEG = 4;
/** Time in which a word's help dies away (to 37 % of the difference of the squares), seconds of the performer's time. Our choice. */
const MEMORY_S = 0.25;
/** Within this much of a word its doubts are settled, seconds. Our choice: one exposure on fours at 24. */
const SETTLED_S = 1 / 6;

/** A joint that a person vouches for at a moment. */
interface Vouched {
  readonly performerS: number;
  readonly joint: number;
  readonly errorDeg: number;
  /** Put in the picture: says nothing of depth, so a limb at the lens stays in doubt and keeps its error. */
  readonly flat: boolean;
}

/** Joints whose own angle a typed one decides. A typed lean of the trunk is the pelvis', to which the lean goes. */
const TYPED: Readonly<Partial<Record<JointName, readonly JointName[]>>> = { spine: ['pelvis'], neck: ['neck', 'head'], head: ['neck', 'head'] };

/**
 * Narrows `errorDeg` and clears doubts in place, `[T·J]`.
 *
 * @param performerS T times of the performer's clock; `captureFactor` container seconds in one of them
 * @param mirror the motion shows the body as in a mirror; corrections name the footage's own sides
 */
export function vouch(
  errorDeg: Float32Array, unsure: Uint8Array, performerS: Float64Array, corrections: Corrections, captureFactor: number, mirror: boolean,
): void {
  for (const word of vouchedJoints(corrections, captureFactor, mirror)) {
    for (let t = 0; t < performerS.length; t++) {
      const away = Math.abs(performerS[t]! - word.performerS);
      const i = t * JOINT_COUNT + word.joint;
      const before = errorDeg[i]!;
      const atLens = word.flat && (unsure[i]! & UNSURE_AT_LENS) !== 0;
      if (!(before > word.errorDeg) || atLens) continue;
      const help = Math.exp(-((away / MEMORY_S) ** 2));
      errorDeg[i] = Math.sqrt(before ** 2 - (before ** 2 - word.errorDeg ** 2) * help);
      if (away <= SETTLED_S) unsure[i] = 0;
    }
  }
}

function vouchedJoints({ angles, placed }: Corrections, captureFactor: number, mirror: boolean): Vouched[] {
  const typed = angles.flatMap(({ timeS, joint }) => (TYPED[joint] ?? [joint]).map((name): Vouched => ({
    performerS: timeS / captureFactor, joint: JOINT[mirror ? opposite(name) : name], errorDeg: TYPED_DEG, flat: false,
  })));
  const put = placed.flatMap(({ timeS, landmark }) => {
    const at = mirror ? OPPOSITE_LANDMARK[LANDMARK[landmark]]! : LANDMARK[landmark];
    return JOINT_LANDMARKS.flatMap((landmarks, joint): Vouched[] =>
      (landmarks.includes(at) ? [{ performerS: timeS / captureFactor, joint, errorDeg: PLACED_DEG, flat: true }] : []));
  });
  return [...typed, ...put];
}

function opposite(name: JointName): JointName {
  const other = name.startsWith('left') ? name.replace('left', 'right') : name.replace('right', 'left');
  return JOINT_NAMES.find((joint) => joint === other)!;
}
