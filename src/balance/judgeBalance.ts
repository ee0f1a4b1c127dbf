/** Judges every step of a plan: would it stand, and does it look right in motion? docs/balance.md has the formulas. */
import type { CompleteArmature } from '../puppet/complete.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import type { Poses } from '../timing/poses.ts';
import type { Steps } from '../timing/steps.ts';
import type { Balance } from './balance.ts';
import { extrapolated, pendulumRate } from './extrapolated.ts';
import { flightsOf } from './flights.ts';
import { bestTieDown, gatherNeeds, tippingMoment, type Need, type SolePlace } from './hardware.ts';
import { marginOf } from './hull.ts';
import { oneLegSpans } from './oneLegSpans.ts';
import { massAt, type MassPath } from './performerMass.ts';
import type { PoiseSettings } from './poiseSettings.ts';
import { massSigma } from './massSigma.ts';
import { massOnSet, weightsOf, type PosesOnSet } from './puppetMass.ts';
import { solePlaces } from './solePlaces.ts';
import { carries, supportsOf, touchersOf, touchingAt } from './touching.ts';
import { unknownBalance } from './unknownBalance.ts';
import { moveVerdicts, standVerdict, VERDICT } from './verdicts.ts';

/** What is judged: N steps, P joints, F feet. */
export interface BalanceSources {
  readonly armature: CompleteArmature;
  /** The exact pose with its errors, and where feet stand. */
  readonly moved: MovedPuppet;
  /** The ordered pose, which is the one that stands on the set. */
  readonly ordered: PosesOnSet;
  /** The performer at the steps, and their size. */
  readonly poses: Poses;
  readonly legLengthM: number;
  readonly performerHeightM: number;
  /** The performer's centre of mass over the take, where a body was fitted. */
  readonly performer: MassPath | null;
  /** Height that the figure is to read as, metres; `null`: as tall as the performer. */
  readonly apparentHeightM: number | null;
  readonly steps: Steps;
}

/**
 * Margins and verdicts of standing are those of the ordered pose. Speeds, for the extrapolated centre of mass and for flights,
 * are those of the exact one: rounding to whole moves would make them jump.
 *
 * What can't be judged says so in `notes` and has NaN and 'not known': a puppet without weight, without soles, a take that
 * tells of no standing foot.
 */
export function judgeBalance(sources: BalanceSources, settings: PoiseSettings): Balance {
  const { armature, moved, ordered, steps } = sources;
  const count = steps.count;
  const touchers = touchersOf(armature, moved.feet, settings.touches);
  const touchNames = touchers.map(({ name }) => name);
  const weights = weightsOf(armature, settings.props);
  const performerM = sources.performer === null ? new Float64Array(count * 3).fill(Number.NaN) : massAt(sources.performer, steps.sourceTimeS);
  const notes = notesOf(sources, settings);
  if (weights.massG.length === 0) return { ...unknownBalance(count, touchNames, [...notes, 'The puppet weighs nothing: give its bones or the whole of it a weight on the Puppet screen.']), performerM };
  if (touchers.length === 0) return { ...unknownBalance(count, [], [...notes, 'The puppet has no sole to stand on: give a foot its outline on the Puppet screen, or say which bone touches the set.']), performerM };

  const touching = touchingAt(touchers, moved.stands, moved.feet.length, steps.sourceTimeS, settings.touches);
  if (!touching.includes(1)) {
    return { ...unknownBalance(count, touchNames, [...notes, 'The take tells of no foot that stands, so nothing can be said about balance: fit the body, or say here which foot stands.']), performerM };
  }
  const { massMm, massG } = massOnSet(armature, weights, ordered, steps.sourceTimeS);
  const exact = massOnSet(armature, weights, moved, steps.sourceTimeS);
  const massSigmaMm = massSigma(armature, weights, moved, armature.heightMm / sources.performerHeightM);
  const support = supportsOf(armature, touchers, touching, ordered);
  const soles = solePlaces(armature, touchers, touching, ordered);

  const heightM = sources.apparentHeightM ?? sources.performerHeightM;
  const rate = pendulumRate(Math.max(0.01, (settings.pendulumFactor * sources.legLengthM * heightM) / sources.performerHeightM));
  const movedXZ = extrapolated(exact.massMm, steps.filmTimeS, rate);
  const movedMm = new Float64Array(count * 2).fill(Number.NaN);

  const unknown = (): Float64Array => new Float64Array(count).fill(Number.NaN);
  const [standMm, standShare, moveMm, moveShare, towardDeg, tippingNmm, sigmaMm] = [unknown(), unknown(), unknown(), unknown(), unknown(), unknown(), unknown()];
  const stand = new Uint8Array(count);
  const touches = new Uint8Array(count);
  const needs: Need[] = [];
  let edgeless = 0;
  for (let s = 0; s < count; s++) {
    const some = touching.subarray(s * touchers.length, (s + 1) * touchers.length);
    touches[s] = some.includes(1) ? 1 : 0;
    const [x, z] = [massMm[s * 3]!, massMm[s * 3 + 2]!];
    if (Number.isNaN(x)) {
      stand[s] = VERDICT['not known'];
      continue;
    }
    // what the motion adds, put on the ordered pose
    movedMm[s * 2] = x + movedXZ[s * 2]! - exact.massMm[s * 3]!;
    movedMm[s * 2 + 1] = z + movedXZ[s * 2 + 1]! - exact.massMm[s * 3 + 2]!;
    if (touches[s] === 0) {
      stand[s] = VERDICT['in the air'];
      continue;
    }
    if (!carries(support[s]!)) {
      edgeless += 1;
      stand[s] = VERDICT['not known'];
      continue;
    }
    const margin = marginOf(support[s]!, x, z);
    const widthMm = Math.min(...touchers.flatMap(({ widthMm: own }, k) => (some[k] === 1 && own > 0 ? [own] : [])));
    const inMotion = marginOf(support[s]!, movedMm[s * 2]!, movedMm[s * 2 + 1]!);
    standMm[s] = margin.distance;
    standShare[s] = margin.distance / widthMm;
    moveMm[s] = inMotion.distance;
    moveShare[s] = inMotion.distance / widthMm;
    towardDeg[s] = (Math.atan2(margin.outZ, margin.outX) * 180) / Math.PI;
    sigmaMm[s] = Math.hypot(massSigmaMm[s * 2]! * margin.outX, massSigmaMm[s * 2 + 1]! * margin.outZ);
    tippingNmm[s] = tippingMoment(massG[s]!, margin.distance);
    const tied = settings.tieDowns.some(({ foot, fromS, toS }) =>
      steps.sourceTimeS[s]! >= fromS && steps.sourceTimeS[s]! <= toS && some[touchNames.indexOf(foot)] === 1);
    stand[s] = standVerdict(margin.distance, sigmaMm[s]!, tied);
    if (margin.distance < sigmaMm[s]!) needs.push(...needOf(s, soles[s]!, margin, tippingNmm[s]!));
  }
  if (edgeless > 0) notes.push(`In ${edgeless} ${edgeless === 1 ? 'step' : 'steps'} what touches has no area to stand on: give the sole an outline with a width.`);
  const move = moveVerdicts(stand, { marginMm: moveMm, sigmaMm, filmTimeS: steps.filmTimeS, touching, touchers: touchers.length, rate });
  return {
    massG: weights.massG.reduce((sum, g, b) => (weights.fromS[b] === -Infinity ? sum + g : sum), 0),
    touchNames, massMm, massSigmaMm, marginSigmaMm: sigmaMm, movedMm, performerM, touching, support,
    standMm, standShare, moveMm, moveShare, standVerdict: stand, moveVerdict: move, towardDeg, tippingNmm,
    oneLeg: oneLegSpans(touchers, touching, standMm),
    flights: flightsOf({ touches, massMm: exact.massMm, filmTimeS: steps.filmTimeS, mmPerM: armature.heightMm / heightM }),
    hardware: gatherNeeds(needs),
    notes,
  };
}

function needOf(step: number, soles: readonly SolePlace[], margin: ReturnType<typeof marginOf>, tippingNmm: number): readonly Need[] {
  const best = bestTieDown(soles, margin);
  return best === null ? [] : [{ step, foot: best.name, tippingNmm, holdN: tippingNmm / best.leverMm }];
}

function notesOf({ armature, performer }: BalanceSources, { props, touches, tieDowns }: PoiseSettings): string[] {
  const names = new Set(armature.bones.map(({ name }) => name));
  const lost = [
    ...props.filter(({ bone }) => !names.has(bone)).map(({ name, bone }) => `The prop ${name} is carried by ${bone}, which this puppet does not have; it weighs nothing.`),
    ...touches.filter(({ bone }) => !names.has(bone)).map(({ bone }) => `${bone} was said to touch, and this puppet does not have it.`),
    ...tieDowns.filter(({ foot }) => !names.has(foot)).map(({ foot }) => `${foot} was tied down, and this puppet does not have it.`),
  ];
  if (performer === null) lost.push('No body was fitted to the take, so the performer’s own centre of mass is not known.');
  return lost;
}
