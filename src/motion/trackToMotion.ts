/**
 * Track in, motion out: the whole way from landmarks to joint rotations, in order, as one function behind one type.
 * Whatever measures a performer in another way one day has to make the same {@link Motion}, and nothing behind it changes.
 */
import { makeSignContinuous } from '../numeric/quaternionSeries.ts';
import { LANDMARK_COUNT } from '../pose/landmarks.ts';
import type { Track } from '../pose/track.ts';
import type { FittedBody } from './fit/fittedBody.ts';
import { JOINT_LANDMARKS, USED_LANDMARKS } from './jointLandmarks.ts';
import { writeJointRotations } from './jointRotations.ts';
import { JOINT_COUNT } from './joints.ts';
import { legLengthM } from './legLength.ts';
import type { Motion } from './motion.ts';
import { prepareTrack, type PreparedTrack } from './prepareTrack.ts';
import { rootPath } from './rootPath.ts';
import { planSmoothing, type Smoother, smoothSeries } from './smoothing.ts';
import { jointTrust } from './trust/jointTrust.ts';
import type { PredictorSource } from './trust/predictors.ts';

export interface MotionSettings {
  /** How many times faster than its stored rate the clip was shot. */
  readonly captureFactor: number;
  /** Swap left and right, as in a mirror. */
  readonly mirror: boolean;
  /** Smoothing cut-off in Hz of the performer's own time; 0 switches smoothing off. */
  readonly cutoffHz: number;
  /** The Butterworth unless told. */
  readonly smoother?: Smoother;
}

/** Track in, motion out, in one go; parameters and errors as for {@link prepareTrack}, result as {@link motionOf}. */
export function trackToMotion(track: Track, settings: MotionSettings, body: FittedBody | null = null): Motion {
  return motionOf(prepareTrack(track, settings.captureFactor, settings.mirror, body), settings.cutoffHz, settings.smoother);
}

/**
 * The performer's joint rotations and how far to trust them, from positions smoothed as told. Frames of reference and
 * shapes: see {@link Motion}. A joint that is not observable stays at rest.
 */
export function motionOf(prepared: PreparedTrack, cutoffHz: number, smoother: Smoother = 'butterworth'): Motion {
  const { motion, source } = readMotion(prepared, cutoffHz, smoother);
  return { ...motion, ...jointTrust(source, motion.state) };
}

/** A motion as far as it can be read, and what foretells its errors. */
export interface ReadTrack {
  readonly motion: Omit<Motion, 'errorDeg' | 'turnErrorDeg' | 'unsure'>;
  readonly source: PredictorSource;
}

/** {@link trackToMotion} without the errors: for the calibration, which makes them. Arguments and errors as there. */
export function readTrack(track: Track, settings: MotionSettings, body: FittedBody | null): ReadTrack {
  const prepared = prepareTrack(track, settings.captureFactor, settings.mirror, body);
  return readMotion(prepared, settings.cutoffHz, settings.smoother ?? 'butterworth');
}

function readMotion(prepared: PreparedTrack, cutoffHz: number, smoother: Smoother): ReadTrack {
  const { stage, bridged, performerS, timesS, body, mirror, model, captureFactor } = prepared;
  const frames = timesS.length;
  const smoothing = planSmoothing(performerS, bridged.stretches, cutoffHz, smoother);
  const positionM = bridged.positionM.slice();
  for (const landmark of USED_LANDMARKS) {
    const weights = smoother === 'penalised' ? prepared.weights[landmark]! : null;
    smoothSeries(smoothing, positionM, LANDMARK_COUNT * 3, landmark * 3, 3, weights);
  }

  const rotations = new Float64Array(frames * JOINT_COUNT * 4).fill(Number.NaN);
  let doubtful = 0;
  for (const stretch of bridged.stretches) doubtful += writeJointRotations(positionM, performerS, stretch, rotations);
  for (let j = 0; j < JOINT_COUNT; j++) makeSignContinuous(rotations, frames, JOINT_COUNT * 4, j * 4);

  const warnings = [...smoothing.warnings];
  if (doubtful > 0) {
    warnings.push(`In ${doubtful} ${doubtful === 1 ? 'frame' : 'frames'} landmarks fell together; joints there keep the pose before.`);
  }
  const { confidence, state, visibility } = prepared.sight;
  const motion: ReadTrack['motion'] = {
    timesS,
    rotations,
    rootM: rootPath(stage, { ...bridged, positionM }, performerS, smoothing),
    confidence,
    state,
    contacts: contactsOf(body, timesS.length, mirror),
    legLengthM: legLengthM(positionM, bridged.frameState),
    observable: Uint8Array.from(JOINT_LANDMARKS, (landmarks) => (landmarks.length > 0 ? 1 : 0)),
    fitted: body !== null,
    usedCutoffHz: smoothing.usedCutoffHz,
    warnings,
  };
  return { motion, source: { model, performerS, captureFactor, rotations, visibility, positionM, body, mirror, ground: prepared.ground } };
}

/** `[T·2]` left and right; a mirror swaps them. */
function contactsOf(body: FittedBody | null, frames: number, mirror: boolean): Uint8Array {
  if (body === null) return new Uint8Array(frames * 2);
  return mirror ? body.contacts.map((_, i) => body.contacts[i ^ 1]!) : body.contacts.slice();
}
