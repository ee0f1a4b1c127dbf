/**
 * Error of a turn that is put together from several joints' turns.
 */
import { JOINT } from '../joints.ts';

/** Joints that share one measured turn by a rule: their errors are the same error, and add up. */
const SHARED: readonly (readonly number[])[] = [[JOINT.spine, JOINT.chest], [JOINT.neck, JOINT.head]];

/**
 * One sigma of a product of joint turns, degrees: errors of different measurements add as squares, those of joints that
 * share one measurement add as they are. NaN entries (not observable, at rest) are left out; NaN where nothing is left.
 *
 * @param joints indices in JOINT_NAMES
 * @param errorOf one sigma of each, degrees
 */
export function combinedErrorDeg(joints: readonly number[], errorOf: (joint: number) => number): number {
  let squares = Number.NaN;
  const add = (error: number): void => {
    if (!Number.isNaN(error)) squares = (Number.isNaN(squares) ? 0 : squares) + error * error;
  };
  for (const joint of joints) {
    if (!SHARED.some((group) => group.includes(joint))) add(errorOf(joint));
  }
  for (const group of SHARED) {
    const errors = group.filter((joint) => joints.includes(joint)).map(errorOf).filter((error) => !Number.isNaN(error));
    if (errors.length > 0) add(errors.reduce((sum, error) => sum + error, 0));
  }
  return Math.sqrt(squares);
}
