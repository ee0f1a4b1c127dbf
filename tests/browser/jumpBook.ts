/**
 * A book whose take jumps, made without a picture: the drawn figure's own jump, and the landmarks that a faultless model would see
 * of it through a level camera. The footage itself does not exist, as after a book was sent without its clip.
 */
import { projectPx } from '../../scripts/accuracy/truthBody.ts';
import type { Truth } from '../../scripts/accuracy/truthFile.ts';
import { landmarksOf } from '../../scripts/accuracy/truthLandmarks.ts';
import { jump } from '../../scripts/clips/actions/jump.ts';
import { PLAIN } from '../../scripts/clips/figure/outfit.ts';
import { MARLA } from '../../scripts/clips/motion/body.ts';
import { aboutY, add, mix, sub, turn, type Vec3 } from '../../scripts/clips/motion/rotation.ts';
import { roomFor, upright } from '../../scripts/clips/studio.ts';
import { truthOf } from '../../scripts/clips/truth.ts';
import { writeBookFile } from '../../src/book/bookFile.ts';
import { newBook } from '../../src/book/document.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';

/** How far the hips rise in the air, metres. */
export const RISE_M = 0.25;
/** A body that rises so far and comes back as far is so long in the air, seconds: twice the root of 2·rise/g. */
export const ALOFT_S = 2 * Math.sqrt((2 * RISE_M) / 9.81);

const AZIMUTH_DEG = 20;
/** Level: the camera is as high as what it looks at. */
const SHOT = upright(AZIMUTH_DEG, 1.05, { target: [0, 1.05, 0], distanceM: 4.6 });

/** Landmarks that the truth has none of stand where they show the same part of the body. */
const BESIDE: readonly (readonly [LandmarkName, LandmarkName, Vec3])[] = [
  ['leftThumb', 'leftIndex', [0.01, 0.03, 0]], ['rightThumb', 'rightIndex', [0.01, 0.03, 0]],
  ['leftEyeInner', 'leftEye', [0, 0, 0.012]], ['leftEyeOuter', 'leftEye', [0, 0, -0.012]],
  ['rightEyeInner', 'rightEye', [0, 0, -0.012]], ['rightEyeOuter', 'rightEye', [0, 0, 0.012]],
  ['mouthLeft', 'nose', [-0.02, -0.04, -0.024]], ['mouthRight', 'nose', [-0.02, -0.04, 0.024]],
];

function seen(truth: Truth): Track {
  const track = emptyTrack('full', truth.widthPx, truth.heightPx, Float64Array.from(truth.timesS));
  track.found.fill(1);
  track.visibility.fill(0.98);
  for (let frame = 0; frame < truth.frames; frame += 1) {
    const points = landmarksOf(truth, frame);
    for (const [name, by, offset] of BESIDE) points.set(name, add(points.get(by)!, offset));
    const hips = mix(points.get('leftHip')!, points.get('rightHip')!, 0.5);
    for (const [name, point] of points) {
      const at = (frame * LANDMARK_COUNT + LANDMARK[name]) * 3;
      // X turned toward the camera; then camera axes: x right, y down, z away
      const [x, y, z] = turn(aboutY(AZIMUTH_DEG), sub(point, hips));
      track.world.set([-z, -y, -x], at);
      const [px, py] = projectPx(truth, point);
      track.image.set([px / truth.widthPx, py / truth.heightPx, 0], at);
    }
  }
  return track;
}

/** Marla leaps for the jar. @returns the text of a book file with its track */
export function jumpBook(): string {
  const action = jump('leap', { crouchS: 0.5, pushS: 0.28, riseM: RISE_M, forwardM: 0, armsDeg: 130 });
  const truth = truthOf({ name: 'leap', set: 'tuning', committed: false, action, body: MARLA, outfit: PLAIN, shot: SHOT, room: roomFor(SHOT), bitsPerSecond: 0 }) as unknown as Truth;
  const track = seen(truth);
  const durationS = truth.frames / 30;
  const take = {
    name: 'leap.webm', sizeBytes: 1, hash: 'e'.repeat(64), widthPx: truth.widthPx, heightPx: truth.heightPx, durationS, frames: truth.frames,
    rate: { kind: 'constant', fps: 30 } as const, address: null,
  };
  return writeBookFile({ ...newBook(), title: 'Marla leaps', take }, track);
}
