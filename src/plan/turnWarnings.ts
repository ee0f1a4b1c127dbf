/** What is said once of turns about a limb's own bone that a take mostly doesn't show, instead of a mark in every row. */
import { TURN_LIMIT_DEG, UNSURE_REASONS, UNSURE_TURN } from '../motion/trust/unsure.ts';
import type { PuppetJoint } from '../puppet/puppetPoses.ts';

export function turnWarnings(joints: readonly PuppetJoint[]): readonly string[] {
  const names = joints.flatMap(({ name, turnHidden }) => (turnHidden ? [name] : []));
  const settled = UNSURE_REASONS.find(({ bit }) => bit === UNSURE_TURN)?.settledBy ?? '';
  return names.length === 0 ? [] : [`The turn about the bone itself is off by more than ±${TURN_LIMIT_DEG}° most of the time: ${names.join(', ')}. ${settled}`];
}
