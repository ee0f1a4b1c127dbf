/**
 * What of a take does not depend on how it is smoothed: landmarks in stage axes, gaps bridged and marked, how surely each
 * joint was seen. Made once for a take and shared by all motions that are made of it; changed by none.
 */
import { LANDMARK_COUNT } from '../pose/landmarks.ts';
import type { ModelSize, Track } from '../pose/track.ts';
import { toStage, type StageTrack } from './bodyAxes.ts';
import { checkTrack } from './checkTrack.ts';
import { FLAG_AT_LENS, type FittedBody } from './fit/fittedBody.ts';
import { bridgeGaps, type Bridged } from './gaps.ts';
import { JOINT_LANDMARKS, USED_LANDMARKS } from './jointLandmarks.ts';
import { JOINT, JOINT_COUNT, type JointName } from './joints.ts';
import { trustGround } from './trust/jointTrust.ts';
import type { TrustGround } from './trust/predictors.ts';
import { AT_LENS_CONFIDENCE, STATE_BRIDGED, STATE_MEASURED, STATE_MISSING, type Motion } from './motion.ts';

export interface PreparedTrack {
  readonly model: ModelSize;
  readonly timesS: Float64Array;
  /** T times of the performer's own clock, seconds. */
  readonly performerS: Float64Array;
  readonly stage: StageTrack;
  readonly bridged: Bridged;
  readonly sight: Sight;
  readonly body: FittedBody | null;
  readonly mirror: boolean;
  readonly captureFactor: number;
  /** `[33][T]` how much each frame's place of a landmark counts in smoothing, 0..1; empty for landmarks that no joint is read from. */
  readonly weights: readonly Float64Array[];
  /** What of the errors doesn't change with the smoothing; `null` without a fitted body. */
  readonly ground: TrustGround | null;
}

/** Confidence and state as in Motion, and the least visibility of the joint's landmarks `[T·J]`. */
type Sight = Pick<Motion, 'confidence' | 'state'> & { readonly visibility: Float32Array };

/**
 * - A joint's confidence is the least visibility of the landmarks it is read from; 0 where missing, and in bridged frames
 *   in which nobody was found.
 * - A joint's state is bridged when its frame is, or when any of its landmarks was hidden (`motion/gaps.ts`).
 * - A joint that is not observable has confidence 0; its state only says whether the frame has a pose.
 *
 * @param captureFactor how many times faster than its stored rate the clip was shot
 * @param mirror swap left and right, as in a mirror
 * @param body the figure fitted to this track at this capture factor (`fit/fitTake.ts`): its points are read instead of the
 *   model's own, which squeeze depth and bend straight limbs; `null` for the landmarks alone
 * @throws NudgebookError `bad-track` (not a usable track), `no-person` (nobody in any frame)
 */
export function prepareTrack(track: Track, captureFactor: number, mirror: boolean, body: FittedBody | null): PreparedTrack {
  checkTrack(track);
  const stage = toStage(track, mirror, body);
  const performerS = track.timesS.map((timeS) => timeS / captureFactor);
  const bridged = bridgeGaps(stage, performerS);
  const seen = sight(bridged, stage.visibility, body === null ? null : limbsAtLens(body, mirror));
  // with a fitted body the errors' ground needs no rotations
  const ground = body === null ? null : trustGround({
    model: track.model, performerS, captureFactor, rotations: new Float64Array(0), visibility: seen.visibility, positionM: bridged.positionM, body, mirror,
  }, seen.state);
  const weights = Array.from({ length: LANDMARK_COUNT }, (_, l) => (USED_LANDMARKS.includes(l) ? landmarkWeights(stage, bridged, l) : new Float64Array(0)));
  return { model: track.model, timesS: track.timesS, performerS, stage, bridged, body, mirror, captureFactor, sight: seen, weights, ground };
}

/** A guess of the model still says more than nothing: the least weight of a frame that has a number of its own. Our choice. */
const LEAST_WEIGHT = 0.01;

/**
 * `[T]` how much each frame's place of a landmark counts: its visibility, which on clips with truth does
 * better than its square (docs/smoothing.md); nothing where it was bridged or nobody was found.
 */
function landmarkWeights(stage: StageTrack, bridged: Bridged, landmark: number): Float64Array {
  const weights = new Float64Array(stage.timesS.length);
  for (let t = 0; t < weights.length; t++) {
    const at = t * LANDMARK_COUNT + landmark;
    if (bridged.filled[at] !== 1 && stage.found[t] === 1) weights[t] = Math.min(1, Math.max(LEAST_WEIGHT, stage.visibility[at]!));
  }
  return weights;
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

function sight(bridged: Bridged, landmarkVisibility: Float32Array, atLens: Uint8Array | null): Sight {
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
