/**
 * What has to hold the puppet where it would not stand by itself.
 *
 * About the edge over which it falls, its weight turns with m·g·d, d how far outside the centre of mass lies (1 g at 1 mm:
 * 0.00981 N·mm). A tie-down in the middle of a sole pulls down at its own distance from that edge; the two are equal where
 * it just holds. Friction, springs in the joints and a knock of the hand are not in it: an estimate, to be doubled and more.
 */
import { GRAVITY_M_S2 } from '../puppet/timeScale.ts';
import type { HardwareNeed } from './balance.ts';
import type { Margin } from './hull.ts';

const KG_PER_G = 1e-3;

/** N·mm; 0 where it stands. @param massG of puppet and props. @param marginMm inside positive */
export function tippingMoment(massG: number, marginMm: number): number {
  return marginMm < 0 ? massG * KG_PER_G * GRAVITY_M_S2 * -marginMm : 0;
}

/** A sole at a step: its middle on the set, mm. */
export interface SolePlace {
  readonly name: string;
  readonly x: number;
  readonly z: number;
}

/** The sole whose tie-down lies farthest from the edge, and how far, mm; `null` where none lies inside it. */
export function bestTieDown(soles: readonly SolePlace[], { edgeX, edgeZ, outX, outZ }: Margin): { readonly name: string; readonly leverMm: number } | null {
  let best: { name: string; leverMm: number } | null = null;
  for (const { name, x, z } of soles) {
    const leverMm = (edgeX - x) * outX + (edgeZ - z) * outZ;
    if (leverMm > 0.01 && (best === null || leverMm > best.leverMm)) best = { name, leverMm };
  }
  return best;
}

/** A step that needs holding, with the foot that can and the pull on it. */
export interface Need {
  readonly step: number;
  readonly foot: string;
  readonly tippingNmm: number;
  readonly holdN: number;
}

/** Neighbouring steps of one foot as one span, with the worst of them. */
export function gatherNeeds(needs: readonly Need[]): readonly HardwareNeed[] {
  const out: HardwareNeed[] = [];
  for (const { step, foot, tippingNmm, holdN } of needs) {
    const last = out.at(-1);
    if (last === undefined || last.foot !== foot || last.toStep !== step - 1) {
      out.push({ foot, fromStep: step, toStep: step, worstStep: step, tippingNmm, holdN });
      continue;
    }
    const worse = holdN > last.holdN || (holdN === last.holdN && tippingNmm > last.tippingNmm);
    out[out.length - 1] = { ...last, toStep: step, ...(worse ? { worstStep: step, tippingNmm, holdN } : {}) };
  }
  return out;
}
