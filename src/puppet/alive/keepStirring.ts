/**
 * Makes sure that no pause looks dead once it is rounded to what a hand can make: wherever all that was added still leaves more
 * than a set count of identical steps, a joint makes one smallest move, and goes back before another such while has passed.
 *
 * What will be ordered is worked out just as the plan does it: lags, hand curves, limits, floor, pins, corrections and rounding included; so it is known and
 * not hoped for. A joint of a limb that is solved from where its end is held is not asked: the solving would take its move back.
 */
import { conjugate, fromRotationVector, multiply, readQuat, rotationVector, type Quat } from '../../numeric/quaternion.ts';
import type { Vec3 } from '../../numeric/vector3.ts';
import type { PauseOnSteps } from '../../timing/moments/moments.ts';
import type { Added } from '../added.ts';
import { turnsFreely } from '../armature.ts';
import type { CompleteArmature, CompleteJoint } from '../complete.ts';
import { withinLimits } from '../keepLimits.ts';
import type { Orders } from '../orderMoves.ts';
import { FLAG_CLIPPED, FLAG_SPREAD } from '../puppetPoses.ts';
import { angleAbout, DEG_PER_RAD, RAD_PER_DEG, turnAbout } from '../turns.ts';
import type { Carrier } from './carriers.ts';

export interface StirSources {
  readonly pauses: readonly PauseOnSteps[];
  readonly complete: CompleteArmature;
  /** What the puppet gets with what is added so far. */
  readonly orderedWith: (added: Added) => Ordered;
  /** `[N·P]` 1 where a joint is solved from where something is held. */
  readonly solved: Uint8Array;
  /** Those that may move: of each rank in turn, the next where nobody of the former can. */
  readonly ranks: readonly (readonly Carrier[])[];
  /** No joint is turned farther than this by all that is added, degrees. */
  readonly mostDriftDeg: number;
  /** Identical steps that may follow each other, 2 or more. */
  readonly mostStill: number;
}

/** A move that was put in changes what is rounded after it; so often it is looked at again. Three are usual. */
const ROUNDS = 12;
/** A move is ordered surely from this much beyond where rounding begins. */
const SURE = 1.02;

/** The puppet at N steps, P joints: exact turns `rotations[N·P·4]`, `flags[N·P]` of what could not be made, and what is ordered. */
export interface Ordered {
  readonly rotations: Float64Array;
  readonly flags: Uint8Array;
  readonly orders: Orders;
}

/** Adds moves to `added` in place. */
export function keepStirring(sources: StirSources, added: Added): void {
  const width = sources.complete.joints.length;
  // a screw's key is not for trembling
  const ranks = sources.ranks.map((rank) => rank.filter(({ joint }) => sources.complete.joints[joint]!.kind !== 'screw'));
  const uses = new Map<Carrier, number>();
  for (let round = 0; round < ROUNDS; round++) {
    const ordered = sources.orderedWith(added);
    const { incrementDeg } = ordered.orders;
    const moves = (s: number): boolean => {
      for (let at = s * width; at < (s + 1) * width; at++) if (!(Math.abs(incrementDeg[at]!) < 1e-9)) return true;
      return false;
    };
    if (!stirOnce({ ...sources, ranks }, added, ordered, moves, uses)) return;
  }
}

/** Puts a move into every while that is too long; returns whether there was any. */
function stirOnce(sources: StirSources, added: Added, ordered: Ordered, moves: (step: number) => boolean, uses: Map<Carrier, number>): boolean {
  const { pauses, mostStill, ranks } = sources;
  const count = ordered.orders.incrementDeg.length / sources.complete.joints.length;
  const own = pauses.filter(({ of }) => ranks.some((rank) => rank.some(({ limb }) => limb === of)));
  const inPause = (s: number): boolean => own.some(({ fromStep, toStep }) => s >= fromStep && s <= toStep);
  let some = false;
  /** First of the identical steps. */
  let first = 0;
  for (let s = 0; s < count; s++) {
    if (!inPause(s) || moves(s)) first = s;
    if (s - first < mostStill) continue;
    const back = stirFrom(sources, added, ordered, first + 1, s, uses);
    if (back === null) continue;
    some = true;
    // it moves again on its way back
    first = back;
    s = back;
  }
  return some;
}

/** One joint moves at the latest step between two where one can; returns the step at which it goes back, or `null`. */
function stirFrom(sources: StirSources, added: Added, ordered: Ordered, earliest: number, latest: number, uses: Map<Carrier, number>): number | null {
  const { pauses, ranks, mostStill } = sources;
  const asked = ranks.flatMap((rank) => [...rank].sort((a, b) => (uses.get(a) ?? 0) - (uses.get(b) ?? 0)));
  for (let at = latest; at >= earliest; at--) {
    for (const carrier of asked) {
      const pause = pauses.find(({ of, fromStep, toStep }) => of === carrier.limb && fromStep < at && at < toStep);
      if (pause === undefined) continue;
      // a twitch of one step only where there is no room for more
      if (at === pause.toStep - 1 && at > Math.max(earliest, pause.fromStep + 1)) continue;
      const turn = turnFor(sources, added, ordered, carrier, at);
      if (turn === null) continue;
      const back = Math.min(at + mostStill, pause.toStep);
      const width = sources.complete.joints.length;
      for (let s = at; s < back; s++) for (let c = 0; c < 3; c++) added.turnDeg[(s * width + carrier.joint) * 3 + c]! += turn[c]!;
      uses.set(carrier, (uses.get(carrier) ?? 0) + 1);
      return back;
    }
  }
  return null;
}

/**
 * The turn that makes a joint one smallest move at a step, away from where its exact pose leans, so that the way back is one as well;
 * `null` where a limit or the drift forbids it, or the solving of its limb would undo it.
 */
function turnFor({ complete, mostDriftDeg, solved }: StirSources, added: Added, { rotations, flags, orders }: Ordered, { joint: p, axis }: Carrier, at: number): Vec3 | null {
  const joint = complete.joints[p]!;
  const index = at * complete.joints.length + p;
  if (solved[index] === 1 || (flags[index]! & (FLAG_CLIPPED | FLAG_SPREAD)) !== 0) return null;
  const exact = readQuat(rotations, index);
  if (Number.isNaN(exact[0])) return null;
  const free = turnsFreely(joint.kind);
  const lean = multiply(exact, conjugate(readQuat(orders.rotations, index)));
  const v: Vec3 = free ? degrees(rotationVector(lean)) : [angleAbout(lean, joint.axis) * DEG_PER_RAD, 0, 0];
  const wantedDeg = Math.max(joint.smallestDeg, (joint.smallestDeg / 2 + joint.slackDeg) * SURE);
  const along = v[0] * axis[0] + v[1] * axis[1] + v[2] * axis[2];
  for (const sign of along > 0 ? [-1, 1] : [1, -1]) {
    const towards = along * sign;
    const by = -towards + Math.sqrt(Math.max(0, towards ** 2 - (v[0] ** 2 + v[1] ** 2 + v[2] ** 2) + wantedDeg ** 2));
    const turn: Vec3 = [axis[0] * sign * by, axis[1] * sign * by, axis[2] * sign * by];
    const sum = Math.hypot(...turn.map((part, c) => part + added.turnDeg[index * 3 + c]!));
    if (sum <= mostDriftDeg && hasRoom(joint, exact, turn, free)) return turn;
  }
  return null;
}

function hasRoom(joint: CompleteJoint, exact: Quat, turn: Vec3, free: boolean): boolean {
  const turned = multiply(free ? fromRotationVector([turn[0] * RAD_PER_DEG, turn[1] * RAD_PER_DEG, turn[2] * RAD_PER_DEG]) : turnAbout(joint.axis, turn[0]), exact);
  const kept = withinLimits(joint, turned);
  return Math.abs(kept[0] * turned[0] + kept[1] * turned[1] + kept[2] * turned[2] + kept[3] * turned[3]) > 1 - 1e-12;
}

function degrees(v: Vec3): Vec3 {
  return [v[0] * DEG_PER_RAD, v[1] * DEG_PER_RAD, v[2] * DEG_PER_RAD];
}
