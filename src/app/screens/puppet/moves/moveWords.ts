/** What to do with a joint at a step, in the words of its kind. */
import { incrementCertaintyAt } from '../../../../charts/certainty.ts';
import { figure, signedFigure } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { turnsFreely } from '../../../../puppet/armature.ts';

/** Moves smaller than half of the last written figure are none. */
const LEAST_DEG = 0.05;
const LEAST_TURNS = 0.005;

/**
 * The move that is ordered: degrees, or turns of the key for a screw. `null` where the joint stays as it is, a dash where it
 * is not known.
 *
 * @param step index from 0; the first is the pose to begin with and has no moves
 */
export function moveWords(plan: Plan, step: number, joint: number): string | null {
  const at = step * plan.joints.length + joint;
  const known = plan.joints[joint];
  if (known === undefined || !known.observable) return null;
  if (incrementCertaintyAt(plan, step, joint) === 'missing') return '–';
  if (step === 0) return null;
  const turns = plan.keyTurns[at];
  if (turns !== undefined && Number.isFinite(turns)) return Math.abs(turns) < LEAST_TURNS ? null : keyWords(turns);
  const deg = plan.incrementDeg[at] ?? Number.NaN;
  if (Math.abs(deg) < LEAST_DEG) return null;
  return `${turnsFreely(known.kind) ? figure(deg, 1) : signedFigure(deg, 1)}°`;
}

const EIGHTHS = ['', '⅛', '¼', '⅜', '½', '⅝', '¾', '⅞'] as const;

/** Turns of a key: in eighths where they are such, `+1¼ turns`; else with two decimals. */
export function keyWords(turns: number): string {
  const eighths = Math.round(Math.abs(turns) * 8);
  const sign = turns < 0 ? '\u2212' : '+';
  const whole = Math.floor(eighths / 8);
  const size = Math.abs(Math.abs(turns) * 8 - eighths) < 0.02
    ? `${whole > 0 || eighths === 0 ? whole : ''}${EIGHTHS[eighths % 8]}`
    : figure(Math.abs(turns), 2);
  return `${sign}${size} ${Math.abs(turns) > 1.001 ? 'turns' : 'turn'}`;
}

/** A direction across the picture as an hour: `2½ o’clock` to the nearest half; empty where there is none. */
export function hourWords(hour: number | undefined): string {
  if (hour === undefined || !Number.isFinite(hour)) return '';
  const halves = Math.round(hour * 2) % 24;
  const whole = Math.floor(halves / 2) === 0 ? 12 : Math.floor(halves / 2);
  return `${whole}${halves % 2 === 1 ? '½' : ''} o’clock`;
}

/** Toward the lens or away from it, where it can be seen at all. */
export function depthWords(towardMm: number | undefined): string {
  if (towardMm === undefined || !Number.isFinite(towardMm) || Math.abs(towardMm) < 0.05) return '';
  return `${figure(Math.abs(towardMm), 1)} mm ${towardMm > 0 ? 'toward' : 'away'}`;
}
