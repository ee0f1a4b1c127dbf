/**
 * What would hold steps that no change brings to a margin: the foot to tie down, or a rig, with what either has to do.
 *
 * What is missing is told as the moment about the nearest edge that the wanted margin would have: m·g·(wanted − margin). A tie-down makes it
 * up by its pull at its distance from that edge, a rig by a level push at its height over the floor.
 */
import { emptyStance, forward, skeletonOf, type Stance } from '../../puppet/kinematics.ts';
import { tippingMoment } from '../hardware.ts';
import { marginOf, type Margin } from '../hull.ts';
import { placeOnBone } from '../placeOnBone.ts';
import type { Weights } from '../puppetMass.ts';
import { touchersOf } from '../touching.ts';
import type { CorrectionSources } from './correctionShapes.ts';

export interface Holding {
  /** Where most is missing. */
  readonly step: number;
  /** Over which edge it goes there: 0 forward (X), 90 to the left of the picture (Z). */
  readonly towardDeg: number;
  readonly momentNmm: number;
  /** The foot whose tie-down has to hold least, and its pull; `null` where none that stands then and can be tied lies inside the edge. */
  readonly foot: { readonly name: string; readonly pullN: number; readonly everywhere: boolean } | null;
  /** The bone nearest to the centre of mass, and the level push at its middle, away from the edge; N. */
  readonly rigAt: string;
  readonly pushN: number;
}

/** A tie-down nearer to the edge than this, mm, holds nothing; a rig lower than this has nothing to push at. Our choice. */
const LEAST_LEVER_MM = 0.5;
const LEAST_HEIGHT_MM = 5;

/** @param span steps with a known margin, at least one */
export function whatHolds(sources: Pick<CorrectionSources, 'armature' | 'moved' | 'balance' | 'weights' | 'sourceTimeS'>, span: readonly number[], wantedMm: number): Holding {
  const { armature, moved, balance, weights, sourceTimeS } = sources;
  const soles = touchersOf(armature, moved.feet, []);
  const width = balance.touchNames.length;
  const missing = span.filter((s) => !(balance.standMm[s]! >= wantedMm));
  const steps = missing.length > 0 ? missing : span;
  const momentAt = (s: number): number => tippingMoment(massAt(weights, sourceTimeS[s]!), balance.standMm[s]! - wantedMm);
  const step = steps.reduce((most, s) => (momentAt(s) > momentAt(most) ? s : most), steps[0]!);
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  const poseAt = (s: number): void => forward(skeleton, moved.rotations, s, [moved.rootMm[s * 3]!, moved.rootMm[s * 3 + 1]!, moved.rootMm[s * 3 + 2]!], stance);
  const edgeAt = (s: number): Margin => marginOf(balance.support[s]!, balance.massMm[s * 3]!, balance.massMm[s * 3 + 2]!);
  // the pull that each foot would have to hold at each step; none where it can't
  const pulls = soles.map(() => new Map<number, number>());
  for (const s of steps) {
    poseAt(s);
    const edge = edgeAt(s);
    soles.forEach((sole, k) => {
      if (!sole.canTie || balance.touching[s * width + k] !== 1) return;
      const lever = leverMm(stance, sole.bone, sole.outlineMm, edge);
      if (lever > LEAST_LEVER_MM) pulls[k]!.set(s, momentAt(s) / lever);
    });
  }
  const most = (k: number, over: readonly number[]): number => over.reduce((worst, s) => Math.max(worst, pulls[k]!.get(s) ?? Infinity), 0);
  const foot = [steps, [step]].flatMap((over, i) => {
    const [best, pullN] = soles.reduce<readonly [number, number]>((least, _, k) => (most(k, over) < least[1] ? [k, most(k, over)] : least), [-1, Infinity]);
    return best < 0 ? [] : [{ name: soles[best]!.name, pullN, everywhere: i === 0 }];
  })[0] ?? null;
  poseAt(step);
  const { outX, outZ } = edgeAt(step);
  const rig = nearestBone(armature, stance, balance.massMm, step);
  return {
    step, towardDeg: (Math.atan2(outZ, outX) * 180) / Math.PI, momentNmm: momentAt(step), foot,
    rigAt: rig.name, pushN: rig.heightMm > LEAST_HEIGHT_MM ? momentAt(step) / rig.heightMm : Number.NaN,
  };
}

function massAt({ massG, fromS, toS }: Weights, atS: number): number {
  return massG.reduce((sum, g, b) => (atS >= fromS[b]! && atS <= toS[b]! ? sum + g : sum), 0);
}

const place = new Float64Array(3);

/** From an edge inward to the middle of a sole, mm. */
function leverMm(stance: Stance, bone: number, outlineMm: Float64Array, { edgeX, edgeZ, outX, outZ }: Margin): number {
  let [x, z] = [0, 0];
  const corners = outlineMm.length / 3;
  for (let i = 0; i < corners; i++) {
    placeOnBone(stance, bone, outlineMm[i * 3]!, outlineMm[i * 3 + 1]!, outlineMm[i * 3 + 2]!, place);
    x += place[0]! / corners;
    z += place[2]! / corners;
  }
  return (edgeX - x) * outX + (edgeZ - z) * outZ;
}

/** The bone whose middle lies nearest to the centre of mass, and how high that is. */
function nearestBone({ bones }: CorrectionSources['armature'], stance: Stance, massMm: Float64Array, step: number): { readonly name: string; readonly heightMm: number } {
  let best = { name: '', heightMm: 0 };
  let least = Infinity;
  bones.forEach(({ name, along, lengthMm }, bone) => {
    const half = lengthMm / 2;
    placeOnBone(stance, bone, along[0] * half, along[1] * half, along[2] * half, place);
    const apart = Math.hypot(place[0]! - massMm[step * 3]!, place[1]! - massMm[step * 3 + 1]!, place[2]! - massMm[step * 3 + 2]!);
    if (apart >= least) return;
    least = apart;
    best = { name, heightMm: place[1]! };
  });
  return best;
}
