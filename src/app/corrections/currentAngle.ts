/** The angle that could be typed for a joint, as the fitted body has it now (`motion/corrections/angleMeasures.ts`). */
import { ANGLE_MEASURES, type CorrectableJoint } from '../../motion/corrections/angleMeasures.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import { angleBetweenVectors, cross, dot, length, midpoint, reject, subtract, unit, type Vec3 } from '../../numeric/vector3.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../pose/landmarks.ts';

const DEG = 180 / Math.PI;
const UP: Vec3 = [0, 1, 0];

const squareTo = (a: Vec3, n: Vec3): Vec3 => reject(a, unit(n) ?? UP);

/**
 * @returns degrees; `null` for turn and nod of the head, which the body's points do not carry
 */
export function currentAngleDeg(body: FittedBody, frame: number, joint: CorrectableJoint): number | null {
  const at = (name: LandmarkName): Vec3 => {
    const i = (frame * LANDMARK_COUNT + LANDMARK[name]) * 3;
    return [body.pointsM[i]!, body.pointsM[i + 1]!, body.pointsM[i + 2]!];
  };
  const side = joint.startsWith('left') ? 'left' : 'right';
  const trunk = subtract(midpoint(at('leftShoulder'), at('rightShoulder')), midpoint(at('leftHip'), at('rightHip')));
  const hips = subtract(at('leftHip'), at('rightHip'));
  switch (ANGLE_MEASURES[joint].measure) {
    case 'flexion': {
      const [a, b, c] = joint.endsWith('Elbow') ? (['Shoulder', 'Elbow', 'Wrist'] as const) : (['Hip', 'Knee', 'Ankle'] as const);
      return DEG * angleBetweenVectors(subtract(at(`${side}${b}`), at(`${side}${a}`)), subtract(at(`${side}${c}`), at(`${side}${b}`)));
    }
    case 'elevation': {
      const down = squareTo([-trunk[0], -trunk[1], -trunk[2]], subtract(at('leftShoulder'), at('rightShoulder')));
      return DEG * angleBetweenVectors(subtract(at(`${side}Elbow`), at(`${side}Shoulder`)), down);
    }
    case 'hipFlexion': {
      const up = squareTo(trunk, hips);
      const forward = cross(hips, up);
      const thigh = subtract(at(`${side}Knee`), at(`${side}Hip`));
      return Math.atan2(dot(thigh, forward) / (length(forward) || 1), -dot(thigh, up) / (length(up) || 1)) * DEG;
    }
    case 'lean': {
      const forward = cross(hips, UP);
      return Math.atan2(dot(trunk, forward) / (length(forward) || 1), trunk[1]) * DEG;
    }
    case 'turn':
    case 'nod':
      return null;
  }
}
