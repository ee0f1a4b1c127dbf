/**
 * The slate pose: a performer may begin with about a second of known poses. First straight: standing, arms hanging a little away from
 * the body, legs straight. Then square: upper arms level to the sides, forearms straight up, elbows at a right angle.
 * Both are looked for in the track, each held still for long enough, the square one soon after the straight one: many takes begin with
 * somebody who stands, so without the square elbows nothing is taken for a slate.
 *
 * In these spans elbows and knees are known; told to the fit they teach it the lengths, the gain and offset of the raw elbow, the
 * squeeze of depth and the camera's pitch.
 */
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../pose/landmarks.ts';
import type { Track } from '../../pose/track.ts';
import type { SlateSpans } from '../fit/fittedBody.ts';
import type { AngleRow } from '../fit/handSet.ts';
import { BONE } from '../fit/layout.ts';
import type { SlateWord } from './corrections.ts';

/** The slate lies in the first seconds; each pose is held this long; the second begins this soon after the first (chosen). */
const WITHIN_S = 5;
const HELD_S = 0.4;
const BETWEEN_S = 2.5;
/** A joint is still that moves by less than this share of the trunk's length in {@link STILL_S} (chosen: 3.5 cm in a tenth of a second; the lite model shakes by 2.5 on a rendered slate). */
const STILL_SHARE = 0.07;
const STILL_S = 0.1;
/** Least visibility: the model doubts a raised wrist that is in plain sight (0.27 on a rendered slate); the picture's lines decide. */
const SEEN = 0.2;
/** How far lines in the picture may be from straight, hanging, level, upright; degrees (chosen: an actor and a camera 30° aside). */
const STRAIGHT_ARM_DEG = 25;
const STRAIGHT_LEG_DEG = 15;
const HANGING_DEG = 35;
const LEVEL_DEG = 25;
const UPRIGHT_DEG = 25;
const SQUARE_DEG = [65, 115] as const;
/** The raw elbow of a right angle lies about here: offset and gain of the raw angle, 15° + .58 · 90°, and more than twice their spread. */
const RAW_SQUARE_DEG = [30, 120] as const;

/** What is known of joints in the two poses, degrees, and how surely an actor copies a picture (chosen). */
const STRAIGHT_ELBOW_DEG = 5;
const STRAIGHT_KNEE_DEG = 3;
const STRAIGHT_SIGMA_DEG = 3;
const SQUARE_ELBOW_DEG = 90;
const SQUARE_SIGMA_DEG = 5;

const DEG = 180 / Math.PI;
const SIDES = ['left', 'right'] as const;

/** @returns the spans as a person gave them, or as they were found; `null` where there are none. Times as in the track. */
export function slateOf(track: Track, word: SlateWord): SlateSpans | null {
  if (word.kind === 'none') return null;
  if (word.kind === 'given') {
    const { straightFromS, straightToS, squareFromS, squareToS } = word;
    return { straightFromS, straightToS, squareFromS, squareToS, given: true };
  }
  return findSlate(track);
}

/** Looks for the two poses. */
export function findSlate(track: Track): SlateSpans | null {
  const { timesS } = track;
  const startS = timesS[0] ?? 0;
  let straight: readonly [number, number] | null = null;
  for (const [from, to, pose] of runsOf(track, startS + WITHIN_S)) {
    if (pose === 'straight') straight = [from, to];
    else if (straight !== null && timesS[from]! - timesS[straight[1]]! <= BETWEEN_S) {
      return { straightFromS: timesS[straight[0]]!, straightToS: timesS[straight[1]]!, squareFromS: timesS[from]!, squareToS: timesS[to]!, given: false };
    }
  }
  return null;
}

type Pose = 'straight' | 'square';

/** Runs of one pose that are held long enough, in order. */
function runsOf(track: Track, untilS: number): (readonly [number, number, Pose])[] {
  const { timesS } = track;
  const runs: (readonly [number, number, Pose])[] = [];
  let from = 0;
  let pose: Pose | null = null;
  for (let t = 0; t <= timesS.length; t++) {
    const now = t < timesS.length && timesS[t]! <= untilS ? poseAt(track, t) : null;
    if (now === pose && now !== null) continue;
    if (pose !== null && timesS[t - 1]! - timesS[from]! >= HELD_S) runs.push([from, t - 1, pose]);
    from = t;
    pose = now;
    if (t < timesS.length && timesS[t]! > untilS) break;
  }
  return runs;
}

/** Pixels of a landmark. */
function at({ image, widthPx, heightPx }: Track, t: number, name: LandmarkName): readonly [number, number] {
  const i = (t * LANDMARK_COUNT + LANDMARK[name]) * 3;
  return [image[i]! * widthPx, image[i + 1]! * heightPx];
}

/** Unsigned angle of a line in the picture against a direction, and against another line; degrees. */
const between = (a: readonly number[], b: readonly number[]): number => Math.atan2(Math.abs(a[0]! * b[1]! - a[1]! * b[0]!), a[0]! * b[0]! + a[1]! * b[1]!) * DEG;
const DOWN = [0, 1] as const;
const UP = [0, -1] as const;

function poseAt(track: Track, t: number): Pose | null {
  if (track.found[t] !== 1) return null;
  const names = SIDES.flatMap((side) => (['Shoulder', 'Elbow', 'Wrist', 'Hip', 'Knee', 'Ankle'] as const).map((joint): LandmarkName => `${side}${joint}`));
  if (names.some((name) => track.visibility[t * LANDMARK_COUNT + LANDMARK[name]]! < SEEN) || !isStill(track, t, names)) return null;
  const line = (a: LandmarkName, b: LandmarkName): number[] => {
    const [p, q] = [at(track, t, a), at(track, t, b)];
    return [q[0] - p[0], q[1] - p[1]];
  };
  let straight = true;
  let square = true;
  for (const side of SIDES) {
    const [upper, fore] = [line(`${side}Shoulder`, `${side}Elbow`), line(`${side}Elbow`, `${side}Wrist`)];
    if (between(line(`${side}Hip`, `${side}Knee`), line(`${side}Knee`, `${side}Ankle`)) > STRAIGHT_LEG_DEG) return null;
    if (between(upper, fore) > STRAIGHT_ARM_DEG || between(upper, DOWN) > HANGING_DEG) straight = false;
    const out = [at(track, t, `${side}Shoulder`)[0] - at(track, t, side === 'left' ? 'rightShoulder' : 'leftShoulder')[0], 0];
    const raw = rawElbowDeg(track, t, side);
    if (between(upper, out) > LEVEL_DEG || between(fore, UP) > UPRIGHT_DEG || !within(between(upper, fore), SQUARE_DEG) || !within(raw, RAW_SQUARE_DEG)) square = false;
  }
  return straight ? 'straight' : square ? 'square' : null;
}

const within = (value: number, [least, most]: readonly [number, number]): boolean => value >= least && value <= most;

function isStill(track: Track, t: number, names: readonly LandmarkName[]): boolean {
  const { timesS } = track;
  let other = t;
  while (other < timesS.length - 1 && timesS[other]! < timesS[t]! + STILL_S) other++;
  if (other === t || track.found[other] !== 1) {
    while (other > 0 && timesS[other]! > timesS[t]! - STILL_S) other--;
  }
  if (track.found[other] !== 1) return false;
  const [shoulder, hip] = [at(track, t, 'leftShoulder'), at(track, t, 'leftHip')];
  const trunk = Math.hypot(shoulder[0] - hip[0], shoulder[1] - hip[1]);
  return names.every((name) => {
    const [a, b] = [at(track, t, name), at(track, other, name)];
    return Math.hypot(a[0] - b[0], a[1] - b[1]) < STILL_SHARE * trunk;
  });
}

function rawElbowDeg({ world }: Track, t: number, side: 'left' | 'right'): number {
  const p = (name: LandmarkName): number[] => [...world.subarray((t * LANDMARK_COUNT + LANDMARK[name]) * 3, (t * LANDMARK_COUNT + LANDMARK[name]) * 3 + 3)];
  const [s, e, w] = [p(`${side}Shoulder`), p(`${side}Elbow`), p(`${side}Wrist`)];
  const [a, b] = [e.map((v, k) => v - s[k]!), w.map((v, k) => v - e[k]!)];
  const dot = a.reduce((sum, v, k) => sum + v * b[k]!, 0);
  return Math.acos(Math.min(1, Math.max(-1, dot / (Math.hypot(...a) * Math.hypot(...b) || 1)))) * DEG;
}

/**
 * What the slate tells the fit, at the frames (or knots) given: elbows and knees, each as one word that all its frames share.
 *
 * @param evidence [K] share of the error memory that each frame counts for, so that the span does not speak louder for having more frames
 */
export function slateRows(timesS: Float64Array, evidence: Float64Array, slate: SlateSpans | null): AngleRow[] {
  if (slate === null) return [];
  const rows: AngleRow[] = [];
  const tell = (fromS: number | null, toS: number | null, bones: readonly number[], deg: number, sigmaDeg: number): void => {
    if (fromS === null || toS === null) return;
    for (let frame = 0; frame < timesS.length; frame++) {
      if (timesS[frame]! < fromS || timesS[frame]! > toS || evidence[frame] === 0) continue;
      for (const bone of bones) {
        rows.push({ frame, measure: { kind: 'flexion', bone }, angleRad: deg / DEG, sigmaRad: sigmaDeg / DEG / Math.sqrt(evidence[frame]!) });
      }
    }
  };
  const elbows = [BONE.leftUpperArm, BONE.rightUpperArm];
  const knees = [BONE.leftThigh, BONE.rightThigh];
  tell(slate.straightFromS, slate.straightToS, elbows, STRAIGHT_ELBOW_DEG, STRAIGHT_SIGMA_DEG);
  tell(slate.straightFromS, slate.straightToS, knees, STRAIGHT_KNEE_DEG, STRAIGHT_SIGMA_DEG);
  tell(slate.squareFromS, slate.squareToS, elbows, SQUARE_ELBOW_DEG, SQUARE_SIGMA_DEG);
  return rows;
}
