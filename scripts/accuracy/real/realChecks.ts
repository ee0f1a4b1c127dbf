/**
 * What must hold of any real body: straight legs in standing, no flips, constant bones, feet that stay.
 */
import { mul, inverse, deg, type Quat, type Vec3 } from '../../clips/motion/rotation.ts';
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { JOINT, JOINT_COUNT, JOINT_NAMES, type JointName } from '../../../src/motion/joints.ts';
import type { Motion } from '../../../src/motion/motion.ts';
import type { Track } from '../../../src/pose/track.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../../src/pose/landmarks.ts';
import { boneSpread, fittedPoint, runs, strayM } from '../bodyChecks.ts';
import { SIDES } from '../segments.ts';

/** Eyes stand at this share of the stature (Drillis & Contini's proportions, as commonly quoted; from memory). */
const EYE_OF_STATURE = 0.936;
/**
 * Hips in the picture within this share of the stature of their highest: the performer stands. By the picture and not by the fitted
 * body, or the fit would choose the frames on which it is judged; knees of 15° lower the hips by about so much.
 */
const STANDING_OF_STATURE = 0.006;
/** A joint that turns farther than this between two frames has flipped: at five frames a second, 450° a second. */
export const FLIP_DEG = 90;

export interface RealChecks {
  readonly frames: number;
  /** Frames in which the performer stands, both knees of each, degrees: mean and largest; landmarks alone and fitted. */
  readonly standing: number;
  readonly rawKnees: { readonly mean: number; readonly most: number };
  readonly fittedKnees: { readonly mean: number; readonly most: number };
  /** Largest turn of any joint between neighbouring frames, and of which; how many are beyond FLIP_DEG. */
  readonly largestTurn: { readonly joint: JointName; readonly deg: number; readonly atS: number };
  readonly flips: number;
  readonly boneSpread: number;
  readonly statureM: number;
  /** Farthest that a foot strays from its mean place while the fit says that it stands, share of stature; worst and median stand. */
  readonly slideWorst: number;
  readonly slideMedian: number;
  readonly unsureShare: number;
}

const read = (motion: Motion, t: number, j: number): Quat => {
  const [w = 1, x = 0, y = 0, z = 0] = motion.rotations.subarray((t * JOINT_COUNT + j) * 4, (t * JOINT_COUNT + j) * 4 + 4);
  return [w, x, y, z];
};

const kneeDeg = (motion: Motion, t: number, joint: 'leftKnee' | 'rightKnee'): number => {
  const [w, , , z] = read(motion, t, JOINT[joint]);
  return -2 * deg(Math.atan2(z, w));
};

const between = (a: Quat, b: Quat): number => {
  const [w, x, y, z] = mul(inverse(a), b);
  return 2 * deg(Math.atan2(Math.hypot(x, y, z), Math.abs(w)));
};

/** Frames in which the performer stands upright. */
function standingFrames(track: Track, body: FittedBody, statureM: number): number[] {
  // One scale for the take: a scale of each frame would move the whole picture with its noise.
  const pxPerM = [...body.pxPerM].sort((a, b) => a - b)[Math.floor(body.pxPerM.length / 2)]!;
  const hipM = [...body.timesS.keys()].map((t) => {
    const y = (name: LandmarkName): number => track.image[(t * LANDMARK_COUNT + LANDMARK[name]) * 3 + 1]!;
    return (-((y('leftHip') + y('rightHip')) / 2) * track.heightPx) / pxPerM;
  });
  const top = Math.max(...hipM.filter(Number.isFinite));
  return [...hipM.keys()].filter((t) => hipM[t]! > top - STANDING_OF_STATURE * statureM);
}

function stature(body: FittedBody): number {
  const eye = (t: number, name: LandmarkName): number => body.pointsM[(t * LANDMARK_COUNT + LANDMARK[name]) * 3 + 1]! + body.rootM[t * 3 + 1]!;
  return Math.max(...[...body.timesS.keys()].map((t) => (eye(t, 'leftEye') + eye(t, 'rightEye')) / 2)) / EYE_OF_STATURE;
}

/** @param stands whether the performer stands upright at any time */
export function realChecks(track: Track, body: FittedBody, raw: Motion, fitted: Motion, stands: boolean): RealChecks {
  const frames = body.timesS.length;
  const tall = stature(body);
  const standing = stands ? standingFrames(track, body, tall) : [];
  const knees = (motion: Motion): { mean: number; most: number } => {
    const all = standing.flatMap((t) => (['leftKnee', 'rightKnee'] as const).map((joint) => kneeDeg(motion, t, joint)));
    return { mean: all.reduce((a, b) => a + b, 0) / all.length, most: all.length === 0 ? Number.NaN : Math.max(...all) };
  };
  let largestTurn: RealChecks['largestTurn'] = { joint: 'pelvis', deg: 0, atS: 0 };
  let flips = 0;
  for (let t = 1; t < frames; t += 1) {
    JOINT_NAMES.forEach((joint, j) => {
      const turned = between(read(fitted, t - 1, j), read(fitted, t, j));
      if (turned > FLIP_DEG) flips += 1;
      if (turned > largestTurn.deg) largestTurn = { joint, deg: turned, atS: body.timesS[t]! };
    });
  }
  const slides = SIDES.flatMap((side, foot) => runs([...body.timesS.keys()].map((t) => body.contacts[t * 2 + foot] === 1))
    .map(([from, to]) => strayM(Array.from({ length: to - from + 1 }, (_, k): Vec3 => fittedPoint(body, from + k, `${side}Ankle`))) / tall))
    .sort((a, b) => a - b);
  const judged = JOINT_NAMES.flatMap((_, j) => (fitted.observable[j] === 1 ? [...body.timesS.keys()].map((t) => fitted.unsure[t * JOINT_COUNT + j] !== 0) : []));
  return {
    frames, standing: standing.length, rawKnees: knees(raw), fittedKnees: knees(fitted), largestTurn, flips,
    boneSpread: boneSpread(body), statureM: tall,
    slideWorst: slides.at(-1) ?? Number.NaN, slideMedian: slides[Math.floor(slides.length / 2)] ?? Number.NaN,
    unsureShare: judged.filter(Boolean).length / judged.length,
  };
}
