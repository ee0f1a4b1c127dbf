/**
 * Small moves that keep pauses alive: for each pause and each joint that carries them a slow wandering that begins and ends with
 * nothing, at least as large as the joint's smallest move and never larger than a stated drift, set off from joint to joint, so
 * that some joint moves nearly every step while none is busy. Where rounding leaves more than a set count of identical steps all
 * the same, `keepStirring.ts` puts a move in.
 *
 * - `sway`: the performer's own wandering in that pause about its middle, without its trend, enlarged until a hand can make it; in a
 *   pause that the timing made there is none, and a weight shift takes its place.
 * - `breath`: 14 breaths a minute (quiet breathing is 12 to 16; a weak source).
 * - `weight shift`: one every 4 s (95 % of the power of quiet standing lies below 0.4 Hz: one subject, open course data).
 */
import type { AliveSettings, AliveStrength } from '../../timing/timingSettings.ts';
import type { PauseOnSteps } from '../../timing/moments/moments.ts';
import type { Poses } from '../../timing/poses.ts';
import type { Steps } from '../../timing/steps.ts';
import { JOINT, JOINT_COUNT } from '../../motion/joints.ts';
import { conjugate, multiply, readQuat, rotationVector } from '../../numeric/quaternion.ts';
import type { Vec3 } from '../../numeric/vector3.ts';
import { emptyAdded, sumOfAdded, type Added } from '../added.ts';
import type { PosesLater } from '../applyArmature.ts';
import { turnsFreely, type Armature } from '../armature.ts';
import { completeArmature } from '../completeArmature.ts';
import { drivesOf } from '../drives.ts';
import { movePuppet, type PerformerFacts } from '../movePuppet.ts';
import { orderMoves } from '../orderMoves.ts';
import type { PuppetSettings } from '../puppetSettings.ts';
import { angleAbout, DEG_PER_RAD } from '../turns.ts';
import { carriersOf, stirrersOf, type Carrier } from './carriers.ts';
import { keepStirring } from './keepStirring.ts';
import { solvedJoints } from './solvedJoints.ts';

export interface AliveSources {
  /** Of the whole body, and of each limb. */
  readonly pauses: readonly PauseOnSteps[];
  /** The performer at the steps, also some steps earlier. */
  readonly posesAt: PosesLater;
  readonly performer: PerformerFacts;
  readonly steps: Steps;
  readonly armature: Armature;
  readonly settings: Pick<PuppetSettings, 'drives' | 'curves' | 'pins' | 'plantFeet'>;
  /** What else is put on top: corrections of the balance. */
  readonly others: Added | null;
  /** Moves that are ordered even if they are soon taken back, as for `orderMoves`. */
  readonly kept: Uint8Array | null;
}

/** Shortest pause that is kept alive, steps: a shorter one is alive by itself. Our choice. */
export const LEAST_ALIVE_STEPS = 4;
/** Amplitude in smallest moves of a joint (and its slack on top, or nothing would be ordered). Our choices. */
const AMPLITUDE: Readonly<Record<Exclude<AliveStrength, 'off'>, number>> = { gentle: 1, strong: 2 };
/** No joint drifts farther than this in a pause, degrees. Our choice. */
export const MOST_DRIFT_DEG: Readonly<Record<Exclude<AliveStrength, 'off'>, number>> = { gentle: 4, strong: 8 };
const PERIOD_S = { breath: 60 / 14, 'weight shift': 4 } as const;
/** A swing in a pause takes no longer than this: it has to come and go. Steps over which it comes and goes at the ends. Our choices. */
const LEAST_PERIOD_STEPS = 8;
const TAPER_STEPS = 3;

/**
 * What is added to the plan's pauses; `null` where nothing is.
 */
export function aliveTurns(
  { pauses, posesAt, performer, steps, armature, settings, others, kept }: AliveSources, { strength, pattern, frozen, mostStill }: AliveSettings,
): Added | null {
  if (strength === 'off') return null;
  const poses = posesAt(0);
  const complete = completeArmature(armature);
  const width = complete.joints.length;
  const all = drivesOf(complete, settings);
  const carriers = carriersOf(complete, all, pattern, frozen);
  const long = pauses.filter(({ fromStep, toStep }) => toStep - fromStep + 1 >= LEAST_ALIVE_STEPS);
  const added = emptyAdded(steps.count, width);
  carriers.forEach((carrier, k) => {
    const { smallestDeg, slackDeg } = complete.joints[carrier.joint]!;
    const free = turnsFreely(complete.joints[carrier.joint]!.kind);
    const mostDeg = Math.min(MOST_DRIFT_DEG[strength], AMPLITUDE[strength] * smallestDeg + slackDeg);
    for (const pause of long) {
      if (pause.of !== carrier.limb) continue;
      const own = pattern === 'sway' ? ownSway(poses, carrier, pause, free ? null : complete.joints[carrier.joint]!.axis) : null;
      const wander = own === null ? patternOf(carrier, pause, steps, pattern === 'breath' ? 'breath' : 'weight shift', k) : own;
      const largest = wander.reduce((most, v) => Math.max(most, Math.hypot(...v)), 0);
      if (!(largest > 0)) continue;
      // enlarged until a hand can make it, calmed where it wanders too far
      const by = mostDeg / largest;
      wander.forEach((v, i) => {
        const at = ((pause.fromStep + i) * width + carrier.joint) * 3;
        for (let c = 0; c < 3; c++) added.turnDeg[at + c]! += v[c]! * by;
      });
    }
  });
  keepStirring({
    pauses: long, complete, ranks: stirrersOf(complete, all, frozen), solved: solvedJoints(complete, all, settings, poses.timesS), mostDriftDeg: MOST_DRIFT_DEG[strength], mostStill,
    orderedWith: (tried) => {
      const { rotations, flags } = movePuppet(posesAt, performer, armature, settings, sumOfAdded([tried, others]));
      return { rotations, flags, orders: orderMoves(complete, rotations, kept) };
    },
  }, added);
  return added.turnDeg.some((deg) => deg !== 0) ? added : null;
}

/** 0 at both ends of a pause, 1 within. */
function taper(i: number, count: number): number {
  const edge = Math.min(i, count - 1 - i);
  const over = Math.min(TAPER_STEPS, Math.floor((count - 1) / 2));
  return over <= 0 ? 0 : Math.sin((Math.PI / 2) * Math.min(1, edge / over)) ** 2;
}

/** The performer's own wandering, degrees, or `null` where it is too little to be one: a held moment, or a joint that is missing. */
function ownSway({ rotations }: Poses, { source }: Carrier, { fromStep, toStep }: PauseOnSteps, axis: Vec3 | null): Vec3[] | null {
  const count = toStep - fromStep + 1;
  const at = (i: number) => readQuat(rotations, (fromStep + i) * JOINT_COUNT + JOINT[source]);
  const middle = conjugate(at(count >> 1));
  const vectors: Vec3[] = [];
  for (let i = 0; i < count; i++) {
    const turn = multiply(at(i), middle);
    if (Number.isNaN(turn[0])) return null;
    vectors.push(axis === null ? scaleDeg(rotationVector(turn)) : [angleAbout(turn, axis) * DEG_PER_RAD, 0, 0]);
  }
  // a moment that the timing holds has no sway of its own
  let held = 0;
  for (let i = 1; i < count; i++) {
    held = Math.hypot(...[0, 1, 2].map((c) => vectors[i]![c]! - vectors[i - 1]![c]!)) < 1e-6 ? held + 1 : 0;
    if (held > HELD_STEPS) return null;
  }
  const [first, last] = [vectors[0]!, vectors[count - 1]!];
  const swaying = vectors.map((v, i): Vec3 => {
    const u = i / (count - 1);
    const by = taper(i, count);
    return [0, 1, 2].map((c) => (v[c]! - first[c]! * (1 - u) - last[c]! * u) * by) as unknown as Vec3;
  });
  const largest = swaying.reduce((most, v) => Math.max(most, Math.hypot(...v)), 0);
  return largest > LEAST_SWAY_DEG ? swaying : null;
}

/** So many steps of one and the same pose are a held moment. Our choice. */
const HELD_STEPS = 3;
/** Less than this is the smoother's own tremble, not a sway: degrees. Our choice. */
const LEAST_SWAY_DEG = 0.05;

function scaleDeg(v: Vec3): Vec3 {
  return [v[0] * DEG_PER_RAD, v[1] * DEG_PER_RAD, v[2] * DEG_PER_RAD];
}

/** A slow swing about the carrier's axis; each joint sets in a golden part of a period after the one before. */
function patternOf({ axis, share }: Carrier, { fromStep, toStep }: PauseOnSteps, { filmTimeS }: Steps, pattern: keyof typeof PERIOD_S, k: number): Vec3[] {
  const count = toStep - fromStep + 1;
  const stepS = (filmTimeS[toStep]! - filmTimeS[fromStep]!) / Math.max(1, count - 1) || 1;
  const period = Math.max(LEAST_PERIOD_STEPS, Math.min(PERIOD_S[pattern] / stepS, 2 * count));
  const phase = (k * 0.6180339887498949) % 1;
  return Array.from({ length: count }, (_, i): Vec3 => {
    const by = share * taper(i, count) * Math.sin(2 * Math.PI * (i / period + phase));
    return [axis[0] * by, axis[1] * by, axis[2] * by];
  });
}
