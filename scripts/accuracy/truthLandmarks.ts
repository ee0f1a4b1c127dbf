/** Where the pose model's landmarks truly are: joint centres from the truth's own skeleton, the others set on their segments. */
import { add, turn, type Vec3 } from '../clips/motion/rotation.ts';
import type { LandmarkName } from '../../src/pose/landmarks.ts';
import { placeTruth } from './truthBody.ts';
import type { Truth } from './truthFile.ts';

/** Landmarks in the world of a true body; hands, feet and face are put where they show the segment's own axes. */
export function landmarksOf(truth: Truth, frame: number): Map<LandmarkName, Vec3> {
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
