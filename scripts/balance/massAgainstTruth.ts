/**
 * The performer's centre of mass over the standing foot, measured against the truth: how sure a margin can be at all.
 */
import { massAt, performerMass } from '../../src/balance/performerMass.ts';
import { bodyMassCentre, type BodyPoint, type Point3 } from '../../src/balance/massTables.ts';
import type { MassTable } from '../../src/balance/poiseSettings.ts';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import type { Track } from '../../src/pose/track.ts';
import { landmarksOf } from '../accuracy/truthLandmarks.ts';
import type { Truth } from '../accuracy/truthFile.ts';
import { aboutY, turn } from '../clips/motion/rotation.ts';

/** One frame: off toward the camera, across the picture, metres of the performer; and the joint that stands. */
export interface MassError {
  readonly frame: number;
  readonly feet: 'left' | 'right' | 'both';
  readonly depthM: number;
  readonly acrossM: number;
  readonly heightM: number;
}

const HALF_HEAD_PER_TRUNK = 242.9 / 515.5 / 2;

function centreOf(points: ReadonlyMap<LandmarkName, Point3>, table: MassTable): Point3 {
  const at = (name: LandmarkName): Point3 => points.get(name)!;
  const between = (a: Point3, b: Point3, u: number): Point3 => [a[0] + u * (b[0] - a[0]), a[1] + u * (b[1] - a[1]), a[2] + u * (b[2] - a[2])];
  const midShoulder = between(at('leftShoulder'), at('rightShoulder'), 0.5);
  const midHip = between(at('leftHip'), at('rightHip'), 0.5);
  const ear = between(at('leftEar'), at('rightEar'), 0.5);
  const headward = (by: number): Point3 => [0, 1, 2].map((c) => ear[c]! + by * HALF_HEAD_PER_TRUNK * (midShoulder[c]! - midHip[c]!)) as unknown as Point3;
  return bodyMassCentre(table, (point: BodyPoint, side): Point3 => {
    switch (point) {
      case 'vertex': return headward(1);
      case 'cervicale': return headward(-1);
      case 'earCanal': return ear;
      case 'midShoulder': return midShoulder;
      case 'midHip': return midHip;
      case 'knuckle': return at(`${side}Index`);
      case 'fingertip': return between(at(`${side}Wrist`), at(`${side}Index`), 2);
      case 'toeTip': return at(`${side}FootIndex`);
      case 'metatarsal': return between(at(`${side}Ankle`), at(`${side}FootIndex`), 0.5);
      case 'heel': return at(`${side}Heel`);
      default: return at(`${side}${point[0]!.toUpperCase()}${point.slice(1)}` as LandmarkName);
    }
  });
}

/** Errors of every frame in which a true foot stands, of centre of mass against the standing ankle (the middle of both). */
export function massErrors(truth: Truth, track: Track, table: MassTable): readonly MassError[] {
  const body = fitTake(track, 1);
  const mass = massAt(performerMass(body, table, false), body.timesS);
  const out: MassError[] = [];
  for (let frame = 0; frame < truth.frames; frame++) {
    const [left, right] = [truth.leftFootOnFloor[frame] === 1, truth.rightFootOnFloor[frame] === 1];
    if (!left && !right) continue;
    const sides = [...(left ? ['left' as const] : []), ...(right ? ['right' as const] : [])];
    const points = landmarksOf(truth, frame);
    const centre = centreOf(points, table);
    const foot = [0, 1, 2].map((c) => sides.reduce((sum, side) => sum + points.get(`${side}Ankle`)![c]!, 0) / sides.length);
    const wanted = turn(aboutY(truth.camera.azimuthDeg), [centre[0] - foot[0]!, centre[1] - foot[1]!, centre[2] - foot[2]!]);
    const measured = [0, 1, 2].map((c) => mass[frame * 3 + c]!
      - sides.reduce((sum, side) => sum + body.pointsM[(frame * LANDMARK_COUNT + LANDMARK[`${side}Ankle`]) * 3 + c]! + body.rootM[frame * 3 + c]!, 0) / sides.length);
    out.push({
      frame, feet: sides.length === 2 ? 'both' : sides[0]!, depthM: measured[0]! - wanted[0], heightM: measured[1]! - wanted[1], acrossM: measured[2]! - wanted[2],
    });
  }
  return out;
}
