/**
 * The two ways to the segments, from the truth and from a motion, against each other and against the renderer's own figures.
 */
import { describe, expect, it } from 'vitest';
import { ANGLE_NAMES, bodyAngles } from '../../scripts/accuracy/bodyAngles.ts';
import { segmentsOfMotion } from '../../scripts/accuracy/motionBody.ts';
import { pictureError } from '../../scripts/accuracy/pictureError.ts';
import { placeTruth, projectPx, segmentsOfTruth } from '../../scripts/accuracy/truthBody.ts';
import type { Truth } from '../../scripts/accuracy/truthFile.ts';
import { project } from '../../scripts/clips/camera.ts';
import { clipNamed } from '../../scripts/clips/clips.ts';
import { aboutY, add, mix, sub, turn, type Vec3 } from '../../scripts/clips/motion/rotation.ts';
import { truthOf } from '../../scripts/clips/truth.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';

const clip = clipNamed('squat');
const told = truthOf(clip);
const truth = told as unknown as Truth;
const derived = told['derived'] as Readonly<Record<string, readonly number[]>>;
const FRAMES = [0, 31, 54, 90, 133];

/** Landmarks in the world of a true body; hands, feet and face are put where they show the segment's own axes. */
function landmarksOf(frame: number): Map<LandmarkName, Vec3> {
  const body = placeTruth(truth, frame);
  const near = (joint: string, offset: Vec3): Vec3 => add(body(joint).position, turn(body(joint).rotation, offset));
  const points = new Map<LandmarkName, Vec3>();
  for (const side of ['left', 'right'] as const) {
    const out = side === 'right' ? 1 : -1;
    for (const joint of ['Shoulder', 'Elbow', 'Wrist', 'Hip', 'Knee', 'Ankle'] as const) points.set(`${side}${joint}`, body(`${side}${joint}`).position);
    points.set(`${side}Index`, near(`${side}Wrist`, [0, -0.09, 0.03 * out]));
    points.set(`${side}Pinky`, near(`${side}Wrist`, [0, -0.09, -0.03 * out]));
    points.set(`${side}Heel`, near(`${side}Ankle`, [-0.05, -0.06, 0]));
    points.set(`${side}FootIndex`, near(`${side}Ankle`, [0.12, -0.06, 0]));
    points.set(`${side}Ear`, near('head', [0, 0, 0.07 * out]));
    points.set(`${side}Eye`, near('head', [0.09, 0.02, 0.03 * out]));
  }
  points.set('nose', near('head', [0.11, -0.02, 0]));
  return points;
}

/** What a faultless model would measure through a level camera that stands `azimuthDeg` round to the performer's right. */
function faultlessTrack(azimuthDeg: number): Track {
  const track = emptyTrack('full', truth.widthPx, truth.heightPx, Float64Array.from(truth.timesS));
  track.found.fill(1);
  track.visibility.fill(1);
  track.world.fill(0);
  track.image.fill(0.5);
  for (let frame = 0; frame < truth.frames; frame += 1) {
    const points = landmarksOf(frame);
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

describe('the true body', () => {
  it('has the elbow and knee angles that the renderer wrote down', () => {
    for (const frame of FRAMES) {
      const angles = bodyAngles(segmentsOfTruth(placeTruth(truth, frame)));
      // The file rounds angles to 0.01 degrees; near straight, the offsets' rounding to 0.1 mm shows as well.
      for (const side of ['left', 'right'] as const) {
        expect(angles[`${side}Elbow`]).toBeCloseTo(derived[`${side}ElbowFlexionDeg`]![frame]!, 1);
        expect(angles[`${side}Knee`]).toBeCloseTo(derived[`${side}KneeFlexionDeg`]![frame]!, 1);
        // The renderer takes the trunk as it is, we square it to the line of the shoulders: a few degrees at most here.
        expect(Math.abs(angles[`${side}Shoulder`] - derived[`${side}ShoulderElevationDeg`]![frame]!)).toBeLessThan(3);
      }
    }
  });

  it('is seen where the renderer put it', () => {
    for (const frame of FRAMES) {
      const wrist = placeTruth(truth, frame)('rightWrist').position;
      const [x, y] = project(clip.shot, wrist);
      // The file rounds the camera's place to 0.1 mm and the focal length to 0.001 px.
      expect(projectPx(truth, wrist)[0]).toBeCloseTo(x, 1);
      expect(projectPx(truth, wrist)[1]).toBeCloseTo(y, 1);
    }
  });
});

describe('a faultless measurement', () => {
  it.each([0, 35, -120])('comes out without error in every angle, with the camera at %s degrees', (azimuthDeg) => {
    const motion = trackToMotion(faultlessTrack(azimuthDeg), { captureFactor: 1, mirror: false, cutoffHz: 0 });
    for (const frame of FRAMES) {
      const truthAngles = bodyAngles(segmentsOfTruth(placeTruth(truth, frame)));
      const measured = bodyAngles(segmentsOfMotion(motion, frame));
      // Landmarks are stored as 32-bit floats: 1e-7 m over the 0.06 m of the face is 1e-4 degrees.
      for (const name of ANGLE_NAMES) expect(measured[name], `${name} in frame ${frame}`).toBeCloseTo(truthAngles[name], 2);
    }
  });

  it('lies on the true joints in the picture', () => {
    const found = pictureError(truth, faultlessTrack(0))!;
    expect(found.worstPx).toBeLessThan(0.001);
    expect(found.n).toBe(truth.frames * 12);
  });
});
