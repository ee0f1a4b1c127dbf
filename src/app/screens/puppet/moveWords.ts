/** What to do with a joint at a step, in the words of its kind. */
import { certaintyAt, incrementCertaintyAt } from '../../../charts/certainty.ts';
import { figure, signedFigure } from '../../../charts/figures.ts';
import type { Plan } from '../../../plan/plan.ts';
import { turnsFreely } from '../../../puppet/armature.ts';
import type { CompleteArmature } from '../../../puppet/complete.ts';

/**
 * The increment that the sheet orders: degrees, or turns of the key for a screw. `null` where the joint stays as it is, a dash
 * where it is not known.
 *
 * @param step index from 0; the first has no increment
 */
export function moveWords(plan: Plan, armature: CompleteArmature, step: number, joint: number): string | null {
  const width = plan.joints.length;
  const known = plan.joints[joint];
  if (known === undefined || !known.observable) return null;
  if (step === 0) return certaintyAt(plan, 0, joint) === 'missing' ? '–' : null;
  if (incrementCertaintyAt(plan, step, joint) === 'missing') return '–';
  const deg = plan.incrementDeg[step * width + joint] ?? Number.NaN;
  if (Math.abs(deg) < 0.05) return null;
  return `${turnsFreely(armature.joints[joint]!.kind) ? figure(deg, 1) : signedFigure(deg, 1)}°`;
}
