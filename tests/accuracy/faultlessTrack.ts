/**
 * A track as a faultless model would measure it, made of a clip's truth: what the accuracy script must find no error in.
 */
import { projectPx } from '../../scripts/accuracy/truthBody.ts';
import type { Truth } from '../../scripts/accuracy/truthFile.ts';
import { landmarksOf } from '../../scripts/accuracy/truthLandmarks.ts';
import { aboutY, mix, sub, turn } from '../../scripts/clips/motion/rotation.ts';
import { LANDMARK, LANDMARK_COUNT } from '../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';

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
