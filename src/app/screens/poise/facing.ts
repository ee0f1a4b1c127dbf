/** Which way the puppet faces. */
import { readQuat, rotate } from '../../../numeric/quaternion.ts';
import type { Plan } from '../../../plan/plan.ts';

/** Over the floor at a step, degrees from X toward Z. */
export function facingDeg({ orderedRotations, joints }: Plan, step: number): number {
  const [x, , z] = rotate(readQuat(orderedRotations, step * joints.length), [1, 0, 0]);
  return (Math.atan2(z, x) * 180) / Math.PI;
}
