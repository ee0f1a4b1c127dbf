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
import { FPS } from '../../scripts/clips/clip.ts';
import { clipNamed } from '../../scripts/clips/clips.ts';
import { poseFrom } from '../../scripts/clips/motion/pose.ts';
import { placeJoints } from '../../scripts/clips/motion/skeleton.ts';
import { truthOf } from '../../scripts/clips/truth.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { faultlessTrack } from './faultlessTrack.ts';

const clip = clipNamed('squat');
const told = truthOf(clip);
const truth = told as unknown as Truth;
const derived = told['derived'] as Readonly<Record<string, readonly number[]>>;
const FRAMES = [0, 31, 54, 90, 133];

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
      const placed = placeJoints(clip.body, poseFrom(clip.body, clip.action.channels(clip.body, frame / FPS)));
      for (const joint of ['rightWrist', 'leftAnkle', 'head'] as const) {
        const [x, y] = project(clip.shot, placed[joint].position);
        const [ourX, ourY] = projectPx(truth, placeTruth(truth, frame)(joint).position);
        // The file rounds angles to 0.01 degrees, quaternions to 1e-5 and lengths to 0.1 mm; a pixel is about 3.5 mm here.
        expect(Math.hypot(ourX - x, ourY - y), `${joint} in frame ${frame}`).toBeLessThan(0.2);
      }
    }
  });
});

describe('a faultless measurement', () => {
  it.each([0, 35, -120])('comes out without error in every angle, with the camera at %s degrees', (azimuthDeg) => {
    const motion = trackToMotion(faultlessTrack(truth, azimuthDeg), { captureFactor: 1, mirror: false, cutoffHz: 0 });
    for (const frame of FRAMES) {
      const truthAngles = bodyAngles(segmentsOfTruth(placeTruth(truth, frame)));
      const measured = bodyAngles(segmentsOfMotion(motion, frame));
      // Landmarks are stored as 32-bit floats: 1e-7 m over the 0.06 m of the face is 1e-4 degrees.
      for (const name of ANGLE_NAMES) expect(measured[name], `${name} in frame ${frame}`).toBeCloseTo(truthAngles[name], 2);
    }
  });

  it('lies on the true joints in the picture', () => {
    const found = pictureError(truth, faultlessTrack(truth, 0))!;
    expect(found.worstPx).toBeLessThan(0.001);
    expect(found.n).toBe(truth.frames * 12);
  });
});
