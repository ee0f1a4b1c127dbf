/**
 * A track as a faultless model would measure it, made of a clip's truth: what the accuracy script must find no error in.
 */
import { placeTruth, projectPx } from '../../scripts/accuracy/truthBody.ts';
import type { Truth } from '../../scripts/accuracy/truthFile.ts';
import { aboutY, add, mix, sub, turn, type Vec3 } from '../../scripts/clips/motion/rotation.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';

/** Landmarks in the world of a true body; hands, feet and face are put where they show the segment's own axes. */
function landmarksOf(truth: Truth, frame: number): Map<LandmarkName, Vec3> {
  const body = placeTruth(truth, frame);
  const near = (joint: string, offset: Vec3): Vec3 => add(body(joint).position, turn(body(joint).rotation, offset));
  const points = new Map<LandmarkName, Vec3>();
  for (const side of ['left', 'right'] as const) {
    const out = side === 'right' ? 1 : -1;
    for (const joint of ['Shoulder', 'Elbow', 'Wrist', 'Hip', 'Knee', 'Ankle'] as const) points.set(`${side}${joint}`, body(`${side}${joint}`).position);
    points.set(`${side}Index`, near(`${side}Wrist`, [0.03, -0.09, 0]));
    points.set(`${side}Pinky`, near(`${side}Wrist`, [-0.03, -0.09, 0]));
    points.set(`${side}Heel`, near(`${side}Ankle`, [-0.05, -0.06, 0]));
    points.set(`${side}FootIndex`, near(`${side}Ankle`, [0.12, -0.06, 0]));
    points.set(`${side}Ear`, near('head', [0, 0, 0.07 * out]));
    points.set(`${side}Eye`, near('head', [0.09, 0.02, 0.03 * out]));
  }
  points.set('nose', near('head', [0.11, -0.02, 0]));
  return points;
}

/** What a faultless model would measure through a level camera that stands `azimuthDeg` round to the performer's right. */
export function faultlessTrack(truth: Truth, azimuthDeg: number): Track {
  const track = emptyTrack('full', truth.widthPx, truth.heightPx, Float64Array.from(truth.timesS));
  track.found.fill(1);
  track.visibility.fill(1);
  track.world.fill(0);
  track.image.fill(0.5);
  for (let frame = 0; frame < truth.frames; frame += 1) {
    const points = landmarksOf(truth, frame);
    const hips = mix(points.get('leftHip')!, points.get('rightHip')!, 0.5);
    for (const [name, point] of points) {
      // Turned so that X points at the camera; then camera axes: x right, y down, z away.
      const [x, y, z] = turn(aboutY(azimuthDeg), sub(point, hips));
      const at = (frame * LANDMARK_COUNT + LANDMARK[name]) * 3;
      track.world.set([-z, -y, -x], at);
      const [px, py] = projectPx(truth, point);
      track.image.set([px / truth.widthPx, py / truth.heightPx, 0], at);
    }
  }
  return track;
}
