/**
 * The smallest change that brings a span of steps to a margin.
 *
 * A change is a few amounts (`means.ts`) that go along the steps as smooth curves (`profile.ts`). Over the base of support, a convex
 * outline, the margin is the least distance to its edges, so a wanted margin is one linear demand for each edge at each step; how
 * the centre of mass goes with each amount is read off the puppet itself, legs solved again. That no joint jumps is a demand on
 * neighbouring control values. The least change that keeps all demands (`leastChange.ts`) is found, the puppet read again there, and so
 * on until it stands still. What it comes to is judged by the plan as it will be ordered, and the demand raised by what rounding takes away.
 */
import type { CompleteArmature } from '../../puppet/complete.ts';
import type { MovedPuppet } from '../../puppet/movePuppet.ts';
import { angleOf, conjugate, multiply, readQuat } from '../../numeric/quaternion.ts';
import { DEG_PER_RAD } from '../../puppet/turns.ts';
import { marginOf } from '../hull.ts';
import type { Balance } from '../balance.ts';
import type { PoiseCorrection } from '../poiseSettings.ts';
import type { Weights } from '../puppetMass.ts';
import { StepChanger } from './changedStep.ts';
import { correctionOf } from './correctionOf.ts';
import { leastChange, type Demand } from './leastChange.ts';
import { amountsOf, type Amount, type Means } from './means.ts';
import { cannotHold, type CannotHold } from './cannotHold.ts';
import { limbOf } from '../../puppet/limb.ts';
import { changeAt, profileOver, type Profile } from './profile.ts';

export interface CorrectionAsk {
  readonly id: string;
  /** From 0, both included. */
  readonly fromStep: number;
  readonly toStep: number;
  readonly marginMm: number;
  readonly means: readonly Means[];
}

/** What a plan with a correction in it comes to. */
export interface Trial {
  readonly balance: Balance;
  readonly moved: MovedPuppet;
}

export interface CorrectionSources {
  readonly armature: CompleteArmature;
  readonly moved: MovedPuppet;
  readonly balance: Balance;
  readonly weights: Weights;
  /** `[N]` container seconds of the steps. */
  readonly sourceTimeS: Float64Array;
  /** The plan with a correction added to those that are applied. */
  readonly trial: (correction: PoiseCorrection) => Trial;
}

export type CorrectionResult =
  | {
    readonly kind: 'found';
    readonly correction: PoiseCorrection;
    /** `[N]` margins of standing before and after, mm. */
    readonly beforeMm: Float64Array;
    readonly afterMm: Float64Array;
    /** Sum of the joints' turns at the middle of the span, degrees. */
    readonly turnDeg: number;
  }
  | ({ readonly kind: 'cannot' } & CannotHold)
  | { readonly kind: 'nothing'; readonly sentence: string };

/** Steps of the span that demands are read from, at most. */
const READ_STEPS = 40;
const READINGS = 3;
/** Amounts by which the way of the centre of mass is read off, degrees and millimetres. */
const PROBE = 0.5;
/** Steps before and behind the span over which the change may come and go, tried in turn. Our choice. */
const EASES = [9, 15, 24, 36] as const;
/** Part of what the performance leaves of each joint's largest step that the change may use, tried in turn: several amounts may turn one joint. */
const ROOMS = [0.7, 0.45, 0.25] as const;
const RAISES = 4;
/** Comparisons of steps: far below any hand, degrees. */
const HAIR_DEG = 0.05;

export function solveCorrection(sources: CorrectionSources, ask: CorrectionAsk): CorrectionResult {
  const { armature, moved, balance, weights, sourceTimeS } = sources;
  const span = known(balance, ask.fromStep, ask.toStep);
  if (span.length === 0) return { kind: 'nothing', sentence: 'Nothing can be corrected here: no margin is known at these steps.' };
  const before = Math.min(...span.map((s) => balance.standMm[s]!));
  if (before >= ask.marginMm) return { kind: 'nothing', sentence: 'These steps have the margin already.' };
  const amounts = amountsOf(armature, moved.joints, ask.means);
  if (amounts.length === 0) return { kind: 'cannot', ...cannotHold(sources, ask, span, before, 'The puppet has none of the joints that were chosen for it.') };
  const changer = new StepChanger(armature, moved, weights, sourceTimeS);
  const largest = largestSteps(moved, armature);
  const problem: Problem = {
    changer, amounts, armature, balance, steps: spread(span), largest, moved, legMm: Math.max(1, armature.rootHeightMm), stepTurns: stepTurnsOf(moved),
  };
  const lastStep = sourceTimeS.length - 1;
  let room: number = ROOMS[0];
  let why: 'limits' | 'jump' | 'rounding' = 'limits';
  for (const ease of EASES) {
    const profile = profileOver(span[0]!, span[span.length - 1]!, ease, lastStep);
    for (room of ROOMS) {
      let reserve = 0;
      for (let raise = 0; raise < RAISES; raise++) {
        const control = changeFor(problem, profile, ask.marginMm + reserve, room);
        if (control === null) {
          if (raise > 0) why = 'rounding';
          break;
        }
        const correction = correctionOf(ask, amounts, profile, control, armature, sourceTimeS, (step, change) => changer.at(step, amounts, change).liftMm);
        const { balance: after, moved: changed } = sources.trial(correction);
        const reached = Math.min(...span.map((s) => (Number.isFinite(after.standMm[s]!) ? after.standMm[s]! : -Infinity)));
        if (worstJump(changed, moved, armature, largest, profile.from - 1, profile.to + 1) > HAIR_DEG) {
          why = 'jump';
          break;
        }
        if (reached >= ask.marginMm - 1e-9) {
          return { kind: 'found', correction, beforeMm: balance.standMm, afterMm: after.standMm, turnDeg: turnBetween(moved, changed, worstOf(balance, span)) };
        }
        reserve += Math.max(0.2, ask.marginMm - reached);
      }
      // more room only helps where the demands could not be kept; less where it jumped
      if (why !== 'jump') break;
    }
    if (profile.from === 0 && profile.to === lastStep) break;
  }
  const profile = profileOver(span[0]!, span[span.length - 1]!, EASES[EASES.length - 1]!, lastStep);
  const reach = reachable(problem, profile, room, before, ask.marginMm);
  return { kind: 'cannot', ...cannotHold(sources, ask, span, reach, whatStops(balance, span, ask.marginMm, reach, why)) };
}

/** What the demands are read from. */
interface Problem {
  readonly changer: StepChanger;
  readonly amounts: readonly Amount[];
  readonly armature: CompleteArmature;
  readonly balance: Balance;
  readonly steps: readonly number[];
  readonly largest: Float64Array;
  readonly moved: MovedPuppet;
  readonly legMm: number;
  /** `[N·P]` turns from the step before, degrees. */
  readonly stepTurns: Float64Array;
}

function worstOf({ standMm }: Balance, span: readonly number[]): number {
  return span.reduce((least, s) => (standMm[s]! < standMm[least]! ? s : least), span[0]!);
}

function known({ standMm }: Balance, from: number, to: number): number[] {
  const out: number[] = [];
  for (let s = Math.max(0, from); s <= Math.min(standMm.length - 1, to); s++) if (Number.isFinite(standMm[s]!)) out.push(s);
  return out;
}

/** All steps of a short span; of a long one so many, evenly. */
function spread(span: readonly number[]): readonly number[] {
  if (span.length <= READ_STEPS) return span;
  return [...new Set(Array.from({ length: READ_STEPS }, (_, k) => span[Math.round((k * (span.length - 1)) / (READ_STEPS - 1))]!))];
}

/** Control values of the least change for a margin, or `null`. */
function changeFor(problem: Problem, profile: Profile, marginMm: number, room: number): Float64Array | null {
  const { amounts, steps } = problem;
  const k = amounts.length;
  const weights = Float64Array.from({ length: profile.count * k }, (_, i) => amounts[i % k]!.weight);
  const fixed = [...rangeDemands(problem, profile), ...rateDemands(problem, profile, room)];
  let control = new Float64Array(profile.count * k);
  for (let reading = 0; reading < READINGS; reading++) {
    const demands = [...fixed];
    for (const step of steps) demands.push(...demandsAt(problem, profile, step, control, marginMm));
    const next = leastChange(weights, demands);
    if (next === null) return null;
    const apart = next.reduce((most, v, i) => Math.max(most, Math.abs(v - control[i]!)), 0);
    control = Float64Array.from(next);
    if (apart < 0.1) break;
  }
  return control;
}

function rangeDemands({ amounts }: Problem, profile: Profile): Demand[] {
  const k = amounts.length;
  return Array.from({ length: profile.count * k }, (_, i) => i).flatMap((i): readonly Demand[] => {
    const [least, most] = amounts[i % k]!.range;
    return [{ at: [i], a: [1], c: least }, { at: [i], a: [-1], c: -most }];
  });
}

/**
 * From step to step no amount goes farther than what the performance leaves of the largest step of the joints that it turns: where a
 * joint makes its largest step anyway, the change waits.
 */
function rateDemands({ amounts, armature, largest, moved, legMm, stepTurns }: Problem, profile: Profile, room: number): Demand[] {
  const k = amounts.length;
  const width = largest.length;
  const lastStep = moved.rootMm.length / 3 - 1;
  const legs = moved.feet.map(({ bone }) => limbOf(armature, bone).all);
  const left = (s: number, joints: readonly number[]): number => joints.reduce((least, p) => Math.min(least, largest[p]! - stepTurns[s * width + p]!), 45);
  const out: Demand[] = [];
  for (let s = Math.max(1, profile.from); s <= Math.min(lastStep, profile.to + 1); s++) {
    const standing = legs.filter((_, f) => moved.placed.some(({ foot, from, to }) => foot === f && s >= from && s - 1 <= to)).flat();
    const rates = amounts.map(({ joints }) => (joints.length === 0
      // a shift by d turns hip and ankle by about d over the leg's length
      ? (Math.max(0, left(s, standing)) * legMm) / DEG_PER_RAD
      : Math.max(0, left(s, joints)) * joints.length));
    const [now, before] = [profile.at(s), profile.at(s - 1)];
    for (let i = 0; i < k; i++) {
      const at = [...now.index.map((c) => c * k + i), ...before.index.map((c) => c * k + i)];
      if (at.length === 0) continue;
      const a = [...now.share, ...before.share.map((by) => -by)];
      out.push({ at, a, c: -rates[i]! * room }, { at, a: a.map((v) => -v), c: -rates[i]! * room });
    }
  }
  return out;
}

/** One demand for each edge of the base: the centre of mass at least so far inside it, by how it goes with each amount here. */
function demandsAt({ changer, amounts, balance: { support, massMm } }: Problem, profile: Profile, step: number, control: Float64Array, marginMm: number): Demand[] {
  const k = amounts.length;
  const change = changeAt(profile, control, k, step);
  const here = changer.at(step, amounts, change);
  // the ordered pose stands a little beside the exact one
  const still = changer.at(step, amounts, new Float64Array(k));
  const [x, z] = [massMm[step * 3]! + here.massX - still.massX, massMm[step * 3 + 2]! + here.massZ - still.massZ];
  const ways = amounts.map((_, i) => {
    const probed = changer.at(step, amounts, change.map((v, j) => (j === i ? v + PROBE : v)));
    return [(probed.massX - here.massX) / PROBE, (probed.massZ - here.massZ) / PROBE] as const;
  });
  const { index, share } = profile.at(step);
  const at = index.flatMap((c) => amounts.map((_, i) => c * k + i));
  const outline = support[step]!;
  const n = outline.length / 2;
  return Array.from({ length: n }, (_, e): Demand => {
    const next = (e + 1) % n;
    const [ax, az] = [outline[e * 2]!, outline[e * 2 + 1]!];
    const [dx, dz] = [outline[next * 2]! - ax, outline[next * 2 + 1]! - az];
    const long = Math.hypot(dx, dz) || 1;
    const [inX, inZ] = [-dz / long, dx / long];
    const a = ways.map(([wx, wz]) => wx * inX + wz * inZ);
    const now = (x - ax) * inX + (z - az) * inZ;
    return { at, a: share.flatMap((by) => a.map((v) => by * v)), c: marginMm - now + a.reduce((sum, v, i) => sum + v * change[i]!, 0) };
  });
}

/** The largest margin that can be had, to a fifth of a millimetre. */
function reachable(problem: Problem, profile: Profile, room: number, least: number, most: number): number {
  let [low, high] = [least, most];
  while (high - low > 0.2) {
    const middle = (low + high) / 2;
    if (changeFor(problem, profile, middle, room) === null) high = middle;
    else low = middle;
  }
  return low;
}

/** Whether the base itself is too small, or the joints stop it, or it would jump. */
function whatStops({ support }: Balance, span: readonly number[], wantedMm: number, reachMm: number, why: 'limits' | 'jump' | 'rounding'): string {
  const widest = Math.min(...span.map((s) => inradius(support[s]!)));
  if (widest < wantedMm) return `No point of the base is farther than ${widest.toFixed(1)} mm from its edge.`;
  if (why === 'jump') return 'It could not be done without a joint that jumps.';
  if (why === 'rounding') return 'The joints’ smallest moves are too coarse for that margin.';
  return `The joints that were chosen come to their limits, or to what they may turn in a step, at ${reachMm.toFixed(1)} mm.`;
}

/** Largest distance to the edge that a point of a convex outline has, by halving steps toward it; mm. */
function inradius(outline: Float64Array): number {
  const n = outline.length / 2;
  if (n < 3) return 0;
  let [x, z] = [0, 0];
  for (let k = 0; k < n; k++) {
    x += outline[k * 2]! / n;
    z += outline[k * 2 + 1]! / n;
  }
  let best = marginOf(outline, x, z);
  for (let by = 20; by > 0.01; by *= 0.8) {
    const next = marginOf(outline, x - best.outX * by, z - best.outZ * by);
    if (next.distance <= best.distance) continue;
    x -= best.outX * by;
    z -= best.outZ * by;
    best = next;
  }
  return best.distance;
}

/** `[P]` the largest turn of each joint from step to step in the whole plan, degrees; not less than its smallest move. */
export function largestSteps({ rotations }: MovedPuppet, { joints }: CompleteArmature): Float64Array {
  const width = joints.length;
  const out = Float64Array.from(joints, ({ smallestDeg }) => smallestDeg);
  for (let s = 1; s < rotations.length / (width * 4); s++) for (let p = 0; p < width; p++) out[p] = Math.max(out[p]!, stepTurn(rotations, width, s, p));
  return out;
}

function stepTurnsOf({ rotations, joints }: MovedPuppet): Float64Array {
  const width = joints.length;
  const out = new Float64Array(rotations.length / 4);
  for (let s = 1; s < out.length / width; s++) for (let p = 0; p < width; p++) out[s * width + p] = stepTurn(rotations, width, s, p);
  return out;
}

function stepTurn(rotations: Float64Array, width: number, s: number, p: number): number {
  const turn = angleOf(multiply(readQuat(rotations, s * width + p), conjugate(readQuat(rotations, (s - 1) * width + p)))) * DEG_PER_RAD;
  return Number.isNaN(turn) ? 0 : turn;
}

/** By how much a changed plan's steps are larger than the largest they may be, degrees; 0: none. */
export function worstJump(changed: MovedPuppet, before: MovedPuppet, { joints }: CompleteArmature, largest: Float64Array, from: number, to: number): number {
  const width = joints.length;
  let worst = 0;
  for (let s = Math.max(1, from); s <= Math.min(before.rootMm.length / 3 - 1, to); s++) {
    for (let p = 0; p < width; p++) worst = Math.max(worst, stepTurn(changed.rotations, width, s, p) - largest[p]!);
  }
  return worst;
}

function turnBetween(a: MovedPuppet, b: MovedPuppet, step: number): number {
  const width = a.joints.length;
  let sum = 0;
  for (let p = 0; p < width; p++) sum += angleOf(multiply(readQuat(b.rotations, step * width + p), conjugate(readQuat(a.rotations, step * width + p)))) * DEG_PER_RAD;
  return sum;
}
