/**
 * Track in, motion out: the whole way from landmarks to joint rotations, in order, as one function behind one type.
 * Whatever measures a performer in another way one day has to make the same {@link Motion}, and nothing behind it changes.
 */
import { makeSignContinuous } from '../numeric/quaternionSeries.ts';
import { LANDMARK_COUNT } from '../pose/landmarks.ts';
import type { Track } from '../pose/track.ts';
import { toStage } from './bodyAxes.ts';
import { checkTrack } from './checkTrack.ts';
import { bridgeGaps, type Bridged } from './gaps.ts';
import { FLAG_AT_LENS, type FittedBody } from './fit/fittedBody.ts';
import { JOINT_LANDMARKS, USED_LANDMARKS } from './jointLandmarks.ts';
import { writeJointRotations } from './jointRotations.ts';
import { JOINT, JOINT_COUNT, type JointName } from './joints.ts';
import { AT_LENS_CONFIDENCE, STATE_BRIDGED, STATE_MEASURED, STATE_MISSING, type Motion } from './motion.ts';
import { rootPath } from './rootPath.ts';
import { planSmoothing, smoothSeries } from './smoothing.ts';
import { jointTrust } from './trust/jointTrust.ts';
import type { PredictorSource } from './trust/predictors.ts';

export interface MotionSettings {
  /** How many times faster than its stored rate the clip was shot. */
  readonly captureFactor: number;
  /** Swap left and right, as in a mirror. */
  readonly mirror: boolean;
  /** Smoothing cut-off in Hz of the performer's own time; 0 switches smoothing off. */
  readonly cutoffHz: number;
}

/**
 * The performer's joint rotations from the landmarks of a take. Frames of reference and shapes: see {@link Motion}.
 *
 * - A joint's confidence is the least visibility of the landmarks it is read from; 0 where missing, and in bridged frames
 *   in which nobody was found.
 * - A joint's state is bridged when its frame is, or when any of its landmarks was hidden (`motion/gaps.ts`).
 * - A joint that is not observable stays at rest, with confidence 0; its state only says whether the frame has a pose.
 *
 * @param body the figure fitted to this track at this capture factor (`fit/fitTake.ts`): its points are read instead of the
 *   model's own, which squeeze depth and bend straight limbs; `null` for the landmarks alone
 * @throws NudgebookError `bad-track` (not a usable track), `no-person` (nobody in any frame)
 */
export function trackToMotion(track: Track, settings: MotionSettings, body: FittedBody | null = null): Motion {
  const { motion, source } = readTrack(track, settings, body);
  return { ...motion, ...jointTrust(source, motion.state) };
}

/** A motion as far as it can be read, and what foretells its errors. */
export interface ReadTrack {
  readonly motion: Omit<Motion, 'errorDeg' | 'unsure'>;
  readonly source: PredictorSource;
}

/** {@link trackToMotion} without the errors: for the calibration, which makes them. Arguments and errors as there. */
export function readTrack(track: Track, settings: MotionSettings, body: FittedBody | null): ReadTrack {
  checkTrack(track);
  const frames = track.timesS.length;
  const stage = toStage(track, settings.mirror, body);
  const performerS = track.timesS.map((timeS) => timeS / settings.captureFactor);
  const bridged = bridgeGaps(stage, performerS);

  const smoothing = planSmoothing(performerS, bridged.stretches, settings.cutoffHz);
  const { positionM } = bridged;
  // in place: from here on everything is made of smooth positions
  for (const landmark of USED_LANDMARKS) smoothSeries(smoothing, positionM, LANDMARK_COUNT * 3, landmark * 3, 3);

  const rotations = new Float64Array(frames * JOINT_COUNT * 4).fill(Number.NaN);
  let doubtful = 0;
  for (const stretch of bridged.stretches) doubtful += writeJointRotations(positionM, performerS, stretch, rotations);
  for (let j = 0; j < JOINT_COUNT; j++) makeSignContinuous(rotations, frames, JOINT_COUNT * 4, j * 4);

  const warnings = [...smoothing.warnings];
  if (doubtful > 0) {
    warnings.push(`In ${doubtful} ${doubtful === 1 ? 'frame' : 'frames'} landmarks fell together; joints there keep the pose before.`);
  }
  const { visibility, ...seen } = sight(bridged, stage.visibility, body === null ? null : limbsAtLens(body, settings.mirror));
  const motion: ReadTrack['motion'] = {
    timesS: track.timesS,
    rotations,
    rootM: rootPath(stage, bridged, performerS, smoothing),
    ...seen,
    observable: Uint8Array.from(JOINT_LANDMARKS, (landmarks) => (landmarks.length > 0 ? 1 : 0)),
    fitted: body !== null,
    usedCutoffHz: smoothing.usedCutoffHz,
    warnings,
  };
  return { motion, source: { model: track.model, performerS, captureFactor: settings.captureFactor, rotations, visibility, positionM, body, mirror: settings.mirror } };
}

/** Joints of the limbs in the order of FittedBody: ball and hinge, whose angles a limb at the lens doesn't show. */
const LIMB_JOINTS: readonly (readonly JointName[])[] = [
  ['leftShoulder', 'leftElbow'], ['rightShoulder', 'rightElbow'], ['leftHip', 'leftKnee'], ['rightHip', 'rightKnee'],
];
const OTHER_SIDE = [1, 0, 3, 2];

/** `[T·J]` 1 where a joint belongs to a limb that points at the lens. */
function limbsAtLens(body: FittedBody, mirror: boolean): Uint8Array {
  const frames = body.timesS.length;
  const atLens = new Uint8Array(frames * JOINT_COUNT);
  LIMB_JOINTS.forEach((joints, limb) => {
    const seen = mirror ? OTHER_SIDE[limb]! : limb;
    for (let t = 0; t < frames; t++) {
      if ((body.limbFlags[t * LIMB_JOINTS.length + seen]! & FLAG_AT_LENS) === 0) continue;
      for (const joint of joints) atLens[t * JOINT_COUNT + JOINT[joint]] = 1;
    }
  });
  return atLens;
}

/** Confidence and state of every joint, and the least visibility of its landmarks `[T·J]`. */
function sight(
  bridged: Bridged, landmarkVisibility: Float32Array, atLens: Uint8Array | null,
): Pick<Motion, 'confidence' | 'state'> & { readonly visibility: Float32Array } {
  const frames = bridged.frameState.length;
  const confidence = new Float32Array(frames * JOINT_COUNT);
  const state = new Uint8Array(frames * JOINT_COUNT);
  const visibility = new Float32Array(frames * JOINT_COUNT);
  for (let t = 0; t < frames; t++) {
    const frameState = bridged.frameState[t]!;
    for (let j = 0; j < JOINT_COUNT; j++) {
      const landmarks = JOINT_LANDMARKS[j]!;
      let least = landmarks.length > 0 && frameState !== STATE_MISSING ? 1 : 0;
      let jointState = frameState;
      for (const l of landmarks) {
        least = Math.min(least, landmarkVisibility[t * LANDMARK_COUNT + l]!);
        if (frameState === STATE_MEASURED && bridged.hidden[t * LANDMARK_COUNT + l] === 1) jointState = STATE_BRIDGED;
      }
      visibility[t * JOINT_COUNT + j] = least;
      confidence[t * JOINT_COUNT + j] = atLens?.[t * JOINT_COUNT + j] === 1 ? Math.min(least, AT_LENS_CONFIDENCE) : least;
      state[t * JOINT_COUNT + j] = jointState;
    }
  }
  return { confidence, state, visibility };
}
