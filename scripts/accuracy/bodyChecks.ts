/**
 * What is not an angle: feet that stand, bones, the path of the hips, the camera. All of one clip against its truth.
 */
import { deg, length, rad, sub, type Vec3 } from '../clips/motion/rotation.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import { SIDES, type Side } from './segments.ts';
import { placeTruth } from './truthBody.ts';
import type { Truth } from './truthFile.ts';

export interface BodyChecks {
  /** Farthest that a foot strays from its mean place while the true one stands, share of body height; NaN without such a foot. */
  readonly slideOfHeight: number;
  /** Largest spread of a fitted bone's length over the clip, share of its mean. */
  readonly boneSpread: number;
  /** Root mean square distance of the hips' path from the true one, metres: toward the camera, height, across. */
  readonly rootM: Vec3;
  /** Fitted less true, degrees. */
  readonly pitchDeg: number;
  readonly rollDeg: number;
  /** What the fit tells of its own error of both, one sigma. */
  readonly pitchSigmaDeg: number;
  readonly rollSigmaDeg: number;
  /** Frames (both feet) that the fit holds for standing; of these on the floor in truth; that stand in truth; of these found. */
  readonly contact: { readonly found: number; readonly right: number; readonly standing: number; readonly caught: number };
}

/** A true foot stands where its sole is on the floor and its ankle is slower than this, m/s. */
const STANDS_M_PER_S = 0.02;

const BONES: readonly (readonly [LandmarkName, LandmarkName])[] = SIDES.flatMap((side) => [
  [`${side}Shoulder`, `${side}Elbow`], [`${side}Elbow`, `${side}Wrist`], [`${side}Hip`, `${side}Knee`], [`${side}Knee`, `${side}Ankle`],
] as const);

/** Place of a fitted landmark over the floor, stage axes, metres. */
export const fittedPoint = (body: FittedBody, frame: number, name: LandmarkName): Vec3 => {
  const at = (c: number): number => body.pointsM[(frame * LANDMARK_COUNT + LANDMARK[name]) * 3 + c]! + body.rootM[frame * 3 + c]!;
  return [at(0), at(1), at(2)];
};

/** A direction of the world in stage axes: X toward the camera along the floor, Z to the left of its picture. */
function inStage({ camera }: Truth, v: Vec3): Vec3 {
  const a = rad(camera.azimuthDeg);
  return [v[0] * Math.cos(a) + v[2] * Math.sin(a), v[1], -v[0] * Math.sin(a) + v[2] * Math.cos(a)];
}

/** Frames in which the true foot stands still. */
export function trueStanding(truth: Truth, side: Side): boolean[] {
  const onFloor = side === 'left' ? truth.leftFootOnFloor : truth.rightFootOnFloor;
  const ankle = truth.timesS.map((_, frame) => placeTruth(truth, frame)(`${side}Ankle`).position);
  const last = truth.frames - 1;
  return onFloor.map((on, frame) => {
    const [from, to] = [Math.max(0, frame - 1), Math.min(last, frame + 1)];
    return on === 1 && length(sub(ankle[to]!, ankle[from]!)) / (truth.timesS[to]! - truth.timesS[from]!) < STANDS_M_PER_S;
  });
}

/** Unbroken runs of true: [first, last]. */
export function runs(flags: readonly boolean[]): (readonly [number, number])[] {
  const found: (readonly [number, number])[] = [];
  let from = -1;
  for (let i = 0; i <= flags.length; i += 1) {
    if (flags[i] === true && from < 0) from = i;
    if (flags[i] !== true && from >= 0) {
      found.push([from, i - 1]);
      from = -1;
    }
  }
  return found;
}

const meanPoint = (points: readonly Vec3[]): Vec3 =>
  [0, 1, 2].map((c) => points.reduce((sum, p) => sum + p[c as 0 | 1 | 2], 0) / points.length) as unknown as Vec3;

/** Farthest of any point from the mean of all, m. */
export const strayM = (points: readonly Vec3[]): number => {
  const mean = meanPoint(points);
  return Math.max(...points.map((p) => length(sub(p, mean))));
};

/** True height of the standing body: the head joint's, and 0.16 m from there to the crown of the drawn head. */
export function bodyHeightM(truth: Truth): number {
  return truth.body.skeleton.pelvis!.offsetM[1] + ['spine', 'chest', 'neck', 'head'].reduce((sum, j) => sum + truth.body.skeleton[j]!.offsetM[1], 0) + 0.16;
}

/** Largest spread of a bone of the fitted body, share of its mean. */
export function boneSpread(body: FittedBody): number {
  return Math.max(...BONES.map(([a, b]) => {
    const lengths = [...body.timesS.keys()].map((t) => length(sub(fittedPoint(body, t, a), fittedPoint(body, t, b))));
    return (Math.max(...lengths) - Math.min(...lengths)) / (lengths.reduce((x, y) => x + y, 0) / lengths.length);
  }));
}

export function bodyChecks(truth: Truth, body: FittedBody): BodyChecks {
  const strays: number[] = [];
  const contact = { found: 0, right: 0, standing: 0, caught: 0 };
  SIDES.forEach((side, foot) => {
    const onFloor = side === 'left' ? truth.leftFootOnFloor : truth.rightFootOnFloor;
    const stands = trueStanding(truth, side);
    for (const [from, to] of runs(stands)) {
      strays.push(strayM(Array.from({ length: to - from + 1 }, (_, k) => fittedPoint(body, from + k, `${side}Ankle`))));
    }
    stands.forEach((standing, frame) => {
      const found = body.contacts[frame * 2 + foot] === 1;
      if (found) contact.found += 1;
      if (found && onFloor[frame] === 1) contact.right += 1;
      if (standing) contact.standing += 1;
      if (standing && found) contact.caught += 1;
    });
  });
  const off = truth.rootM.map((root, t): Vec3 => {
    const moved = inStage(truth, sub(root, truth.rootM[0]!));
    return [body.rootM[t * 3]! - body.rootM[0]! - moved[0], body.rootM[t * 3 + 1]! - root[1], body.rootM[t * 3 + 2]! - body.rootM[2]! - moved[2]];
  });
  const rms = (c: 0 | 1 | 2): number => Math.sqrt(off.reduce((sum, o) => sum + o[c] ** 2, 0) / off.length);
  return {
    slideOfHeight: strays.length === 0 ? Number.NaN : Math.max(...strays) / bodyHeightM(truth),
    boneSpread: boneSpread(body),
    rootM: [rms(0), rms(1), rms(2)],
    pitchDeg: deg(body.camera.pitchRad) - truth.camera.pitchDownDeg,
    rollDeg: deg(body.camera.rollRad) - truth.camera.rollDeg,
    pitchSigmaDeg: deg(body.camera.pitchSigmaRad),
    rollSigmaDeg: deg(body.camera.rollSigmaRad),
    contact,
  };
}
