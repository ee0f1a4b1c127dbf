/**
 * The plan as a file for other programs: `plan.json`. Documented by `docs/plan.schema.json`, which the tests hold it to.
 */
import { countCorrections, NO_CORRECTIONS } from '../motion/corrections/corrections.ts';
import type { FittedBody } from '../motion/fit/fittedBody.ts';
import { STATE_BRIDGED, STATE_MISSING } from '../motion/motion.ts';
import { unsureWords } from '../motion/trust/unsure.ts';
import { settledBy, unsureSpans } from '../motion/trust/unsureSpans.ts';
import type { PuppetKind } from '../puppet/armature.ts';
import type { Datum } from '../plan/datums.ts';
import type { Plan } from '../plan/plan.ts';
import type { PlanSettings } from '../plan/settings.ts';
import type { Poses } from '../timing/poses.ts';
import { DEFAULT_TIMING, type TimingSettings } from '../timing/timingSettings.ts';
import { balanceToJson, stepBalance, type PlanJsonBalance, type PlanJsonStepBalance } from './balanceJson.ts';
import type { ExportTake } from './exportTake.ts';
import { flagWords, type FlagWord } from './flagWords.ts';
import { movesToJson, pausesToJson, timingToJson, type PlanJsonMove, type PlanJsonPause, type PlanJsonTiming } from './planTiming.ts';
import { readoutsToJson, type PlanJsonReadouts } from './readoutsJson.ts';
import { clockHour, PLACES, rounded } from './rounding.ts';

export const PLAN_FORMAT = 'nudgebook-plan';
export const PLAN_VERSION = 3;

export type StateWord = 'measured' | 'bridged' | 'missing';

/** The word for a STATE_* number. */
export function stateWord(state: number): StateWord {
  return state === STATE_MISSING ? 'missing' : state === STATE_BRIDGED ? 'bridged' : 'measured';
}

/** What the angles were read from: a body fitted to the whole take, or the landmarks of each frame alone. */
export type AnglesFrom = 'fitted body' | 'landmarks alone';

/** The words for Plan.fitted. */
export function anglesFrom(fitted: boolean): AnglesFrom {
  return fitted ? 'fitted body' : 'landmarks alone';
}

export interface PlanJsonJoint {
  readonly kind: PuppetKind;
  readonly angleDeg: number | null;
  readonly orderedAngleDeg: number | null;
  readonly incrementDeg: number | null;
  readonly turnDeg: readonly number[] | null;
  /** Turns of the key; null for joints that are no screws. */
  readonly keyTurns: number | null;
  readonly rotation: readonly number[] | null;
  readonly orderedRotation: readonly number[] | null;
  readonly flags: readonly FlagWord[];
  readonly confidence: number;
  readonly state: StateWord;
  /** One sigma, degrees; null where missing or not observable. */
  readonly errorDeg: number | null;
  /** Of balls and wires the same of the turn about the bone; null where there is none of its own, and for other kinds. */
  readonly turnErrorDeg: number | null;
  readonly unsure: boolean;
  readonly unsureBecause: readonly string[];
  readonly observable: boolean;
}

/** Steps `fromStep`..`toStep` (inclusive, from 1) in which a joint is unsure, why, and what would settle it. */
export interface PlanJsonSpan {
  readonly joint: string;
  readonly fromStep: number;
  readonly toStep: number;
  readonly because: readonly string[];
  readonly settledBy: string;
}

/** A point of the puppet with its joints as ordered; null where there is no pose. */
export interface PlanJsonPoint {
  readonly atMm: readonly number[] | null;
  readonly travelMm: number | null;
  /** Clock hour across the picture; null where the travel is too small to have one. */
  readonly hour: number | null;
  readonly towardLensMm: number | null;
}

export interface PlanJsonStep {
  readonly step: number;
  readonly exposure: number;
  /** Exposures for which the pose is held. */
  readonly holds: number;
  readonly sourceTimeS: number;
  readonly filmTimeS: number;
  readonly rootM: readonly number[] | null;
  readonly rootMm: readonly number[] | null;
  readonly orderedRootMm: readonly number[] | null;
  /** Names of the feet that stand. */
  readonly standing: readonly string[];
  /** The foot that the ordered pose hangs on; null: a rig. */
  readonly heldBy: string | null;
  readonly balance: PlanJsonStepBalance;
  readonly points: Readonly<Record<string, PlanJsonPoint>>;
  readonly joints: Readonly<Record<string, PlanJsonJoint>>;
}

/** What the fitted body was made with and what was found on the way; container times. */
export interface PlanJsonBody {
  readonly camera: {
    readonly pitchDeg: number | null; readonly rollDeg: number | null; readonly focalPx: number | null;
    readonly given: { readonly pitch: boolean; readonly roll: boolean; readonly fov: boolean };
  };
  /** How many of each kind were set by hand. */
  readonly corrections: Readonly<Record<string, number>>;
  readonly swaps: readonly { readonly fromS: number; readonly toS: number; readonly part: string; readonly state: string }[];
  readonly slate: { readonly straightFromS: number; readonly straightToS: number; readonly squareFromS: number | null; readonly squareToS: number | null } | null;
}

/** The facts of a fitted body that a plan's file names. */
export function bodyFacts({ camera, corrections, swaps, slate }: Pick<FittedBody, 'camera' | 'corrections' | 'swaps' | 'slate'>): PlanJsonBody {
  const degrees = (rad: number): number | null => rounded((rad * 180) / Math.PI, PLACES.degrees);
  const seconds = (s: number): number => rounded(s, PLACES.seconds) ?? 0;
  const orNull = (s: number | null): number | null => (s === null ? null : seconds(s));
  return {
    camera: { pitchDeg: degrees(camera.pitchRad), rollDeg: degrees(camera.rollRad), focalPx: rounded(camera.focalPx, PLACES.error), given: { ...camera.given } },
    corrections: { ...countCorrections(corrections ?? NO_CORRECTIONS) },
    swaps: swaps.map(({ fromS, toS, part, state }) => ({ fromS: seconds(fromS), toS: seconds(toS), part, state })),
    slate: slate === null ? null : {
      straightFromS: seconds(slate.straightFromS), straightToS: seconds(slate.straightToS), squareFromS: orNull(slate.squareFromS), squareToS: orNull(slate.squareToS),
    },
  };
}

export interface PlanJson {
  readonly format: typeof PLAN_FORMAT;
  readonly version: typeof PLAN_VERSION;
  readonly take: ExportTake;
  readonly rate: number;
  readonly on: number;
  readonly anglesFrom: AnglesFrom;
  /** The body that the angles were read from; `null` where its facts are not at hand. */
  readonly body: PlanJsonBody | null;
  readonly settings: PlanSettings & { readonly usedCutoffHz: number | null };
  readonly exposureCount: number;
  readonly timing: PlanJsonTiming;
  readonly moves: readonly PlanJsonMove[];
  readonly pauses: readonly PlanJsonPause[];
  readonly joints: readonly {
    readonly name: string; readonly kind: PuppetKind; readonly observable: boolean; readonly source: string | null; readonly axis: readonly number[];
  }[];
  readonly feet: readonly string[];
  readonly points: readonly string[];
  readonly datums: readonly Datum[];
  readonly warnings: readonly string[];
  readonly unsureSpans: readonly PlanJsonSpan[];
  readonly balance: PlanJsonBalance;
  /** Angles of the performer in people's terms; `null` where the performer's poses are not at hand. */
  readonly readouts: PlanJsonReadouts | null;
  readonly steps: readonly PlanJsonStep[];
}

/**
 * The plan as plain data, ready for JSON.stringify. Steps and exposures count from 1. Degrees, seconds, metres. What is
 * not known is `null`: angle, move and rotation of a missing pose.
 *
 * @param settings what the plan was made with
 * @param body facts of the fitted body
 * @param timing what was set by hand about the timing, likewise
 * @param poses the performer's poses at the plan's steps, for the readouts
 */
export function planToJson(
  plan: Plan, take: ExportTake, settings: PlanSettings, body: PlanJsonBody | null = null, timing: TimingSettings = DEFAULT_TIMING,
  poses: Poses | null = null,
): PlanJson {
  const steps: PlanJsonStep[] = [];
  for (let s = 0; s < plan.stepCount; s++) {
    steps.push({
      step: s + 1,
      exposure: plan.exposure[s]!,
      holds: plan.holds[s]!,
      sourceTimeS: rounded(plan.sourceTimeS[s]!, PLACES.seconds) ?? 0,
      filmTimeS: rounded(plan.filmTimeS[s]!, PLACES.seconds) ?? 0,
      rootM: tuple(plan.rootM, s * 3, 3, PLACES.metres),
      rootMm: tuple(plan.rootMm, s * 3, 3, PLACES.millimetres),
      orderedRootMm: tuple(plan.orderedRootMm, s * 3, 3, PLACES.millimetres),
      standing: plan.feet.filter((_, f) => plan.planted[s * plan.feet.length + f] === 1).map((foot) => foot.name),
      heldBy: plan.feet[plan.holding[s]!]?.name ?? null,
      balance: stepBalance(plan.balance, s),
      points: Object.fromEntries(plan.points.map((point, c) => [point.name, pointOf(plan, s, c)])),
      joints: Object.fromEntries(plan.joints.map((joint, p) => [joint.name, jointOf(plan, s, p)])),
    });
  }
  const { name, hash, durationS, frames, framesPosed, width, height, model, rateText } = take;
  return {
    format: PLAN_FORMAT,
    version: PLAN_VERSION,
    take: {
      name, hash, durationS: rounded(durationS, PLACES.seconds) ?? 0, frames, framesPosed, width, height, model, rateText,
    },
    rate: plan.rate,
    on: plan.on,
    anglesFrom: anglesFrom(plan.fitted),
    body,
    settings: {
      inS: settings.inS, outS: settings.outS, captureFactor: settings.captureFactor, mirror: settings.mirror,
      cutoffHz: settings.cutoffHz, smoother: settings.smoother, usedCutoffHz: plan.usedCutoffHz, rate: settings.rate, on: settings.on,
      timeScale: settings.timeScale,
    },
    exposureCount: plan.exposureCount,
    timing: timingToJson(plan, timing),
    moves: movesToJson(plan),
    pauses: pausesToJson(plan),
    joints: plan.joints.map(({ name: joint, kind, observable, source, axis }) => ({ name: joint, kind, observable, source, axis })),
    feet: plan.feet.map((foot) => foot.name),
    points: plan.points.map((point) => point.name),
    datums: plan.datums.map(({ step, point, heightMm, fromMarkMm }) => ({
      step, point, heightMm: rounded(heightMm, PLACES.millimetres) ?? 0, fromMarkMm: rounded(fromMarkMm, PLACES.millimetres) ?? 0,
    })),
    warnings: [...plan.warnings],
    unsureSpans: spansOf(plan),
    balance: balanceToJson(plan.balance),
    readouts: poses === null ? null : readoutsToJson(poses),
    steps,
  };
}

function spansOf(plan: Plan): PlanJsonSpan[] {
  return unsureSpans(plan.unsure, plan.joints.length).map(({ joint, from, to, reasons }) => ({
    joint: plan.joints[joint]!.name, fromStep: from + 1, toStep: to + 1,
    because: reasons.map(({ word }) => word), settledBy: settledBy(reasons),
  }));
}

function jointOf(plan: Plan, step: number, p: number): PlanJsonJoint {
  const { kind, observable } = plan.joints[p]!;
  const at = step * plan.joints.length + p;
  return {
    kind,
    angleDeg: rounded(plan.angleDeg[at]!, PLACES.degrees),
    orderedAngleDeg: rounded(plan.orderedAngleDeg[at]!, PLACES.degrees),
    incrementDeg: rounded(plan.incrementDeg[at]!, PLACES.turn),
    turnDeg: tuple(plan.turnDeg, at * 3, 3, PLACES.turn),
    keyTurns: rounded(plan.keyTurns[at]!, PLACES.turn),
    rotation: tuple(plan.rotations, at * 4, 4, PLACES.quaternion),
    orderedRotation: tuple(plan.orderedRotations, at * 4, 4, PLACES.quaternion),
    flags: flagWords(plan.flags[at]!),
    confidence: rounded(plan.confidence[at]!, PLACES.confidence) ?? 0,
    state: stateWord(plan.state[at]!),
    errorDeg: rounded(plan.errorDeg[at]!, PLACES.error),
    turnErrorDeg: rounded(plan.turnErrorDeg[at]!, PLACES.error),
    unsure: plan.unsure[at] !== 0,
    unsureBecause: unsureWords(plan.unsure[at]!),
    observable,
  };
}

function pointOf(plan: Plan, step: number, c: number): PlanJsonPoint {
  const at = step * plan.points.length + c;
  return {
    atMm: tuple(plan.pointMm, at * 3, 3, PLACES.millimetres),
    travelMm: rounded(plan.travelMm[at]!, PLACES.millimetres),
    hour: rounded(clockHour(plan.hour[at]!), PLACES.hour),
    towardLensMm: rounded(plan.towardMm[at]!, PLACES.millimetres),
  };
}

/** Some numbers in a row; `null` as a whole when any of them is not known. */
function tuple(values: Float64Array, from: number, count: number, places: number): readonly number[] | null {
  const out: number[] = [];
  for (let k = 0; k < count; k++) {
    const value = rounded(values[from + k]!, places);
    if (value === null) return null;
    out.push(value);
  }
  return out;
}
