/**
 * What has to hold the puppet where it would not stand by itself.
 *
 * About the edge over which it falls, its weight turns with m·g·d, d how far outside the centre of mass lies (1 g at 1 mm:
 * 0.00981 N·mm). A tie-down in the middle of a sole pulls down at its own distance from that edge; the two are equal where
 * it just holds. A rig from above, where no sole can be tied, is given the whole weight. Friction, springs in the joints and a
 * knock of the hand are not in it: an estimate, to be doubled and more.
 */
import { GRAVITY_M_S2 } from '../puppet/timeScale.ts';
import type { HardwareNeed } from './balance.ts';
import type { Margin } from './hull.ts';
import type { Toucher } from './touching.ts';

const KG_PER_G = 1e-3;

/** A tie-down nearer to the edge than this, mm, holds nothing. Our choice. */
const LEAST_LEVER_MM = 0.5;

/** N·mm; 0 where it stands. @param massG of puppet and props. @param marginMm inside positive */
export function tippingMoment(massG: number, marginMm: number): number {
  return marginMm < 0 ? massG * KG_PER_G * GRAVITY_M_S2 * -marginMm : 0;
}

/** N. */
export function weightN(massG: number): number {
  return massG * KG_PER_G * GRAVITY_M_S2;
}

/**
 * Of the soles that touch and can be tied, the one whose middle lies farthest from the edge, and how far, mm; `null` where none lies inside it.
 *
 * @param middleMm `[…·T·2]`, NaN for what does not touch. @param step which block of it
 */
export function bestTieDown(
  touchers: readonly Toucher[], middleMm: Float64Array, step: number, { edgeX, edgeZ, outX, outZ }: Margin,
): { readonly name: string; readonly leverMm: number } | null {
  let best: { name: string; leverMm: number } | null = null;
  for (let k = 0; k < touchers.length; k++) {
    if (!touchers[k]!.canTie) continue;
    const at = (step * touchers.length + k) * 2;
    const leverMm = (edgeX - middleMm[at]!) * outX + (edgeZ - middleMm[at + 1]!) * outZ;
    if (leverMm > LEAST_LEVER_MM && (best === null || leverMm > best.leverMm)) best = { name: touchers[k]!.name, leverMm };
  }
  return best;
}

/** A step that needs holding, with the foot that can, if any, and the pull on it. */
export interface Need {
  readonly step: number;
  readonly foot: string | null;
  readonly tippingNmm: number;
  readonly mostNmm: number;
  readonly holdN: number;
}

/** Neighbouring steps of one foot as one span, with the worst of them. */
export function gatherNeeds(needs: readonly Need[]): readonly HardwareNeed[] {
  const out: HardwareNeed[] = [];
  let from = 0;
  for (let i = 0; i < needs.length; i++) {
    const next = needs[i + 1];
    if (next !== undefined && next.foot === needs[i]!.foot && next.step === needs[i]!.step + 1) continue;
    const span = needs.slice(from, i + 1);
    const { step: worstStep, ...worst } = span.reduce((a, b) => (b.holdN > a.holdN ? b : a));
    out.push({ ...worst, fromStep: span[0]!.step, toStep: needs[i]!.step, worstStep });
    from = i + 1;
  }
  return out;
}
