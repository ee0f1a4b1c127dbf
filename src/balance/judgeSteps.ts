/** Margins of every step, and the verdict of standing. */
import type { CompleteArmature } from '../puppet/complete.ts';
import { carries, type Ground } from './ground.ts';
import { bestTieDown, tippingMoment, weightN, type Need } from './hardware.ts';
import { marginOf, type Margin } from './hull.ts';
import { NOTES, stepsText } from './notes.ts';
import type { TieDown } from './poiseSettings.ts';
import type { Contacts, Toucher } from './touching.ts';
import { standVerdict, SURE, VERDICT } from './verdicts.ts';

/** N steps, T touchers; shapes as in Balance. */
export interface StepSources {
  readonly touchers: readonly Toucher[];
  readonly contacts: Contacts;
  readonly ground: Ground;
  readonly massMm: Float64Array;
  readonly massG: Float64Array;
  readonly massSigmaMm: Float64Array;
  readonly movedMm: Float64Array;
  /** What one sigma of the speed makes of the extrapolated centre of mass, mm. */
  readonly speedSigmaMm: { readonly x: number; readonly z: number };
  readonly timesS: Float64Array;
  readonly tieDowns: readonly TieDown[];
}

export interface JudgedSteps {
  readonly standMm: Float64Array;
  readonly standShare: Float64Array;
  readonly moveMm: Float64Array;
  readonly moveShare: Float64Array;
  readonly marginSigmaMm: Float64Array;
  readonly moveSigmaMm: Float64Array;
  readonly towardDeg: Float64Array;
  readonly moveTowardDeg: Float64Array;
  readonly tippingNmm: Float64Array;
  readonly stand: Uint8Array;
  /** `[N]` 1 where something may touch of which that is not known. `[N]` 1 where something surely touches. */
  readonly doubt: Uint8Array;
  readonly grounded: Uint8Array;
  readonly needs: readonly Need[];
  /** What was in the way of a verdict. */
  readonly notes: (armature: CompleteArmature) => readonly string[];
}

/**
 * A step is judged by what surely touches. Where that holds it, more could only hold it better; where it does not, and a foot was
 * hidden or a bone comes down to the floor unspoken of, nothing is known.
 */
export function judgeSteps({ touchers, contacts, ground, massMm, massG, massSigmaMm, movedMm, speedSigmaMm, timesS, tieDowns }: StepSources): JudgedSteps {
  const count = timesS.length;
  const width = touchers.length;
  const { touching, unseen } = contacts;
  const unknown = (): Float64Array => new Float64Array(count).fill(Number.NaN);
  const [standMm, standShare, moveMm, moveShare] = [unknown(), unknown(), unknown(), unknown()];
  const [marginSigmaMm, moveSigmaMm, towardDeg, moveTowardDeg, tippingNmm] = [unknown(), unknown(), unknown(), unknown(), unknown()];
  const stand = new Uint8Array(count).fill(VERDICT['not known']);
  const doubt = new Uint8Array(count);
  const grounded = new Uint8Array(count);
  const needs: Need[] = [];
  const hidden = touchers.map((): number[] => []);
  const low = new Map<number, number[]>();
  const edgeless: number[] = [];
  const lifted: number[] = [];
  for (let s = 0; s < count; s++) {
    const x = massMm[s * 3]!;
    const z = massMm[s * 3 + 2]!;
    if (Number.isNaN(x)) continue;
    let narrowMm = Infinity;
    let tied = false;
    for (let k = 0; k < width; k++) {
      const at = s * width + k;
      if (unseen[at] === 1) doubt[s] = 1;
      const sure = touching[at] === 1 && unseen[at] === 0;
      if (sure) {
        grounded[s] = 1;
        if (touchers[k]!.widthMm > 0 && touchers[k]!.widthMm < narrowMm) narrowMm = touchers[k]!.widthMm;
      }
      for (const { foot, fromS, toS } of tieDowns) {
        if (foot !== touchers[k]!.name || timesS[s]! < fromS || timesS[s]! > toS) continue;
        if (sure) tied = true;
        else lifted.push(s);
      }
    }
    if (ground.low[s]! >= 0) doubt[s] = 1;
    const outline = ground.support[s]!;
    const firm = grounded[s] === 1 && carries(outline);
    const margin = firm ? marginOf(outline, x, z) : null;
    const sigma = margin === null ? Number.NaN : over(margin, massSigmaMm[s * 2]!, massSigmaMm[s * 2 + 1]!);
    if (margin === null || (doubt[s] === 1 && !(margin.distance > SURE.holds * sigma))) {
      if (doubt[s] === 1) {
        for (let k = 0; k < width; k++) if (unseen[s * width + k] === 1) hidden[k]!.push(s);
        if (ground.low[s]! >= 0) low.set(ground.low[s]!, [...(low.get(ground.low[s]!) ?? []), s]);
      } else if (grounded[s] === 0) {
        stand[s] = VERDICT['in the air'];
      } else {
        edgeless.push(s);
      }
      continue;
    }
    const inMotion = marginOf(outline, movedMm[s * 2]!, movedMm[s * 2 + 1]!);
    standMm[s] = margin.distance;
    standShare[s] = margin.distance / narrowMm;
    moveMm[s] = inMotion.distance;
    moveShare[s] = inMotion.distance / narrowMm;
    towardDeg[s] = wayDeg(margin);
    moveTowardDeg[s] = wayDeg(inMotion);
    marginSigmaMm[s] = sigma;
    moveSigmaMm[s] = Math.sqrt(over(inMotion, massSigmaMm[s * 2]!, massSigmaMm[s * 2 + 1]!) ** 2 + over(inMotion, speedSigmaMm.x, speedSigmaMm.z) ** 2);
    tippingNmm[s] = tippingMoment(massG[s]!, margin.distance);
    stand[s] = standVerdict(margin.distance, sigma, tied);
    const wider = ground.wider[s]!;
    if (stand[s] === VERDICT.falls && wider !== null && marginOf(wider, x, z).distance >= -SURE.falls * sigma) stand[s] = VERDICT.marginal;
    if (margin.distance <= SURE.holds * sigma) {
      const best = bestTieDown(touchers, ground.middleMm, s, margin);
      const mostNmm = tippingMoment(massG[s]!, margin.distance - sigma);
      needs.push({ step: s, foot: best?.name ?? null, tippingNmm: tippingNmm[s]!, mostNmm, holdN: best === null ? weightN(massG[s]!) : mostNmm / best.leverMm });
    }
  }
  return {
    standMm, standShare, moveMm, moveShare, marginSigmaMm, moveSigmaMm, towardDeg, moveTowardDeg, tippingNmm, stand, doubt, grounded, needs,
    notes: ({ bones }) => [
      ...hidden.flatMap((steps, k) => (steps.length > 0 ? [NOTES.hidden(touchers[k]!.name, stepsText(steps))] : [])),
      ...[...low].map(([bone, steps]) => NOTES.low(bones[bone]!.name, stepsText(steps))),
      ...(edgeless.length > 0 ? [NOTES.edgeless(stepsText(edgeless))] : []),
      ...(lifted.length > 0 ? [NOTES.lifted(stepsText([...new Set(lifted)]))] : []),
    ],
  };
}

function wayDeg({ outX, outZ }: Margin): number {
  return (Math.atan2(outZ, outX) * 180) / Math.PI;
}

/** The part of an error along X and along Z that leads over an edge. */
function over({ outX, outZ }: Margin, alongX: number, alongZ: number): number {
  return Math.sqrt((alongX * outX) ** 2 + (alongZ * outZ) ** 2);
}
