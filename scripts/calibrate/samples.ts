/**
 * Errors and predictors of all joints of a take.
 */
import { existsSync, readFileSync } from 'node:fs';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import { JOINT_COUNT } from '../../src/motion/joints.ts';
import { STATE_BRIDGED, STATE_MISSING, type Motion } from '../../src/motion/motion.ts';
import { readTrack } from '../../src/motion/trackToMotion.ts';
import { JOINT_CLASS } from '../../src/motion/trust/errorClasses.ts';
import { jointTrust } from '../../src/motion/trust/jointTrust.ts';
import { PREDICTOR_COUNT, TURN_PREDICTOR_COUNT, writeBend, writePredictors } from '../../src/motion/trust/predictors.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import type { ModelSize, Track } from '../../src/pose/track.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { trackPath } from '../accuracy/cachedTrack.ts';
import { readTruth } from '../accuracy/truthFile.ts';
import { angleErrors } from './angleErrors.ts';
import type { TrueClip } from './clipList.ts';

/** Of the turn about the joint's own bone: its class (of TURN_CLASSES), signed error, degrees, and TURN_PREDICTORS. */
export interface TurnFacts {
  readonly turnClass: number;
  readonly deg: number;
  readonly x: Float64Array;
}

/** All that is known of one joint in one frame. */
export interface JointFrame {
  readonly clip: number;
  readonly errorClass: number;
  /** Signed errors, degrees. */
  readonly deg: readonly number[];
  readonly turn: TurnFacts | null;
  readonly x: Float64Array;
  /** What the model in force says (of the whole class: not shared out), and its doubts. */
  readonly errorDeg: number;
  readonly unsure: number;
  /** Carried over a gap, or guessed while out of sight. */
  readonly bridged: boolean;
}

/** Every so many frames one: the detector's errors stay alike for a quarter of a second. */
const STRIDE = 3;

/** The track of a clip, where it has been posed; `npm run accuracy` poses. */
export function knownTrack(clip: TrueClip, model: ModelSize): Track | undefined {
  const path = trackPath(clip.clipPath, clip.name, model);
  return existsSync(path) ? trackFromJson(JSON.parse(readFileSync(path, 'utf8'))) : undefined;
}

/** @param body the figure fitted to the track; `null`: from the landmarks alone */
export function jointFrames(clip: TrueClip, index: number, track: Track, body: FittedBody | null): JointFrame[] {
  const truth = readTruth(clip.truthPath);
  const { motion: read, source } = readTrack(track, DEFAULT_SETTINGS, body);
  const motion: Motion = { ...read, ...jointTrust(source, read.state) };
  const out: JointFrame[] = [];
  for (let t = 0; t < truth.frames; t += STRIDE) {
    for (const { errorClass, joint, deg, turnDeg } of angleErrors(truth, motion, t)) {
      const i = t * JOINT_COUNT + joint;
      if (motion.state[i] === STATE_MISSING) continue;
      const all = new Float64Array(TURN_PREDICTOR_COUNT);
      writePredictors(source, t, joint, all);
      const x = all.slice(0, PREDICTOR_COUNT);
      const { turnClass } = JOINT_CLASS[joint]!;
      if (turnClass >= 0) writeBend(motion.rotations, t, joint, all);
      const turn = turnClass < 0 ? null : { turnClass, deg: turnDeg, x: all };
      out.push({ clip: index, errorClass, deg, turn, x, errorDeg: motion.errorDeg[i]!, unsure: motion.unsure[i]!, bridged: motion.state[i] === STATE_BRIDGED });
    }
  }
  return out;
}

/** The turns about the bone as if they were joints of their own. What was said and doubted is still that of the joint's direction. */
export function turnFrames(frames: readonly JointFrame[]): JointFrame[] {
  return frames.flatMap((frame) => (frame.turn === null ? [] : [{ ...frame, errorClass: frame.turn.turnClass, deg: [frame.turn.deg], x: frame.turn.x, turn: null }]));
}
