/**
 * Error of a turn that is put together from several joints' turns.
 */
import { JOINT } from '../joints.ts';

/** Joints that share one measured turn by a rule: their errors are the same error, and add up. */
const SHARED: readonly (readonly number[])[] = [[JOINT.spine, JOINT.chest], [JOINT.neck, JOINT.head]];

/**
 * Which joints' errors belong together when their turns are put together: told once, used at every step.
 *
 * @param joints indices in JOINT_NAMES
 * @returns one list for each measurement; within it errors add as they are
 */
export function errorTerms(joints: readonly number[]): readonly (readonly number[])[] {
  const apart = joints.filter((joint) => !SHARED.some((group) => group.includes(joint))).map((joint) => [joint]);
  const shared = SHARED.map((group) => group.filter((joint) => joints.includes(joint))).filter((group) => group.length > 0);
  return [...apart, ...shared];
}

/**
 * One sigma of a product of joint turns, degrees: errors of different measurements add as squares, those of joints that
 * share one measurement add as they are. NaN entries (not observable, at rest) are left out; NaN where nothing is left.
 *
 * @param terms of {@link errorTerms}
 * @param errorDeg `[…·J]` one sigma of each joint, degrees; @param base index of the first joint of the moment
 */
export function combinedErrorDeg(terms: readonly (readonly number[])[], errorDeg: ArrayLike<number>, base: number): number {
  let squares = Number.NaN;
  for (const term of terms) {
    let sum = Number.NaN;
    for (const joint of term) {
      const error = errorDeg[base + joint]!;
      if (!Number.isNaN(error)) sum = (Number.isNaN(sum) ? 0 : sum) + error;
    }
    if (!Number.isNaN(sum)) squares = (Number.isNaN(squares) ? 0 : squares) + sum * sum;
  }
  return Math.sqrt(squares);
}
