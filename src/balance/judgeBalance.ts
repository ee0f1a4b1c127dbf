/** Judges every step of a plan: would it stand, and does it look right in motion? docs/balance.md has the formulas. */
import type { CompleteArmature } from '../puppet/complete.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import type { Poses } from '../timing/poses.ts';
import type { Steps } from '../timing/steps.ts';
import type { Balance } from './balance.ts';
import { flightsOf } from './flights.ts';
import { extrapolated, pendulumRate } from './extrapolated.ts';
import { groundOf } from './ground.ts';
import { gatherNeeds } from './hardware.ts';
import { judgeSteps } from './judgeSteps.ts';
import { MASS_SPEED_SIGMA_M_S, massSigma } from './massSigma.ts';
import { NOTES, notesOf, spanText } from './notes.ts';
import { oneLegSpans } from './oneLegSpans.ts';
import { massAt, type MassPath } from './performerMass.ts';
import type { PoiseSettings } from './poiseSettings.ts';
import { massOnSet, weightsOf, type PosesOnSet } from './puppetMass.ts';
import { standsOfTake } from './standsOfTake.ts';
import { contactsOf, touchersOf } from './touching.ts';
import { unknownBalance } from './unknownBalance.ts';
import { moveVerdicts, VERDICT } from './verdicts.ts';

/** What is judged: N steps, P joints, F feet. */
export interface BalanceSources {
  readonly armature: CompleteArmature;
  /** The exact pose with its errors, and where feet stand. */
  readonly moved: MovedPuppet;
  /** The ordered pose, which is the one that stands on the set. */
  readonly ordered: PosesOnSet;
  /** The performer at the steps, and their size. */
  readonly poses: Poses;
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
 * tells of no standing foot, a foot that was hidden.
 */
export function judgeBalance(sources: BalanceSources, settings: PoiseSettings): Balance {
  const { armature, moved, ordered, steps, performerHeightM } = sources;
  const { count, filmTimeS, sourceTimeS } = steps;
  const touchers = touchersOf(armature, moved.feet, settings.touches);
  const touchNames = touchers.map(({ name }) => name);
  const weights = weightsOf(armature, settings.props);
  const performerM = sources.performer === null ? new Float64Array(count * 3).fill(Number.NaN) : massAt(sources.performer, sourceTimeS);
  const notes = notesOf(armature, sources.performer !== null, settings);
  const unknown = (names: readonly string[], why: string): Balance => ({ ...unknownBalance(count, names, [...notes, why]), performerM });
  if (!weights.massG.some((g, b) => weights.fromS[b] === -Infinity && g > 0)) return unknown(touchNames, NOTES.noWeight);
  if (touchers.length === 0) return unknown([], NOTES.noSole);
  const contacts = contactsOf(touchers, moved, standsOfTake(moved, sources.poses), sourceTimeS, settings);
  if (!contacts.touching.includes(1)) return unknown(touchNames, NOTES.nothingStands);

  const inHand = massOnSet(armature, weights, ordered, sourceTimeS);
  const exact = massOnSet(armature, weights, moved, sourceTimeS);
  const ground = groundOf(armature, touchers, contacts, ordered);
  const performerMmPerM = armature.heightMm / performerHeightM;
  const corrected = new Uint8Array(count);
  for (const { applied, fromS, toS } of settings.corrections) {
    for (let s = 0; applied && s < count; s++) if (fromS <= sourceTimeS[s]! && sourceTimeS[s]! <= toS) corrected[s] = 1;
  }
  const massSigmaMm = massSigma({ armature, weights, moved, touchers, contacts, mmPerM: performerMmPerM, corrected });

  // the pendulum is the puppet's own, at the size that it is to read as
  const mmPerM = armature.heightMm / (sources.apparentHeightM ?? performerHeightM);
  const rate = pendulumRate((settings.pendulumFactor * Math.max(1, armature.rootHeightMm)) / mmPerM);
  const movedMm = extrapolated(exact.massMm, filmTimeS, rate, exact.massG);
  for (let s = 0; s < count; s++) {
    // what the motion adds, put on the ordered pose
    movedMm[s * 2]! += inHand.massMm[s * 3]! - exact.massMm[s * 3]!;
    movedMm[s * 2 + 1]! += inHand.massMm[s * 3 + 2]! - exact.massMm[s * 3 + 2]!;
  }
  const speedSigmaMm = { x: (MASS_SPEED_SIGMA_M_S.depth * performerMmPerM) / rate, z: (MASS_SPEED_SIGMA_M_S.across * performerMmPerM) / rate };
  const judged = judgeSteps({ touchers, contacts, ground, ...inHand, massSigmaMm, movedMm, speedSigmaMm, timesS: sourceTimeS, tieDowns: settings.tieDowns });
  const { standMm, standShare, moveMm, moveShare, stand, towardDeg, moveTowardDeg, tippingNmm, marginSigmaMm, moveSigmaMm, doubt, grounded, needs } = judged;
  const { touching, unseen } = contacts;
  const aloft = stand.map((verdict) => (verdict === VERDICT['in the air'] ? 1 : 0));
  const airborne = flightsOf({ aloft, grounded, massMm: exact.massMm, filmTimeS, mmPerM });
  const grounding = airborne.flatMap(({ flight, flies }) => (flies ? [] : [flight]));
  for (const { fromStep, toStep } of grounding) stand.fill(VERDICT['not known'], fromStep, toStep + 1);
  const moveVerdict = moveVerdicts(stand, { marginMm: moveMm, sigmaMm: moveSigmaMm, filmTimeS, touching, touchers: touchers.length, doubt, rate });
  return {
    massG: weights.massG.reduce((sum, g, b) => (weights.fromS[b] === -Infinity ? sum + g : sum), 0),
    touchNames, massMm: inHand.massMm, massSigmaMm, marginSigmaMm, moveSigmaMm, movedMm, performerM, touching, unseen, support: ground.support,
    standMm, standShare, moveMm, moveShare, standVerdict: stand, moveVerdict, towardDeg, moveTowardDeg, tippingNmm,
    oneLeg: oneLegSpans(touchers, contacts, standMm),
    flights: airborne.flatMap(({ flight, flies }) => (flies ? [flight] : [])),
    hardware: gatherNeeds(needs),
    notes: [...notes, ...judged.notes(armature), ...grounding.map(({ fromStep, toStep }) => NOTES.grounded(spanText(fromStep, toStep)))],
  };
}
