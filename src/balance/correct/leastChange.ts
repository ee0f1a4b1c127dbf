/**
 * The least change that keeps some linear demands: minimise Σ wᵢ·qᵢ² while a·q ≥ c for every demand. Solved by the dual
 * active-set method of Goldfarb & Idnani (1983, Math. Programming 27:1-33; also Nocedal & Wright, Numerical Optimization, ch. 16; both from
 * memory). It begins with no change at all and takes in the demand that lacks most, holding it exactly, until none lacks; one that is
 * held and would rather let go is let go. It ends after finitely many turns, and it knows when demands contradict each other.
 */
import { HeldDemands } from './heldDemands.ts';
import { addDemand, demandTimes, lackOf, packDemands, type PackedDemands } from './packedDemands.ts';

/** a·q ≥ c, with a by the places at which it is not 0. */
export interface Demand {
  readonly at: readonly number[];
  readonly a: readonly number[];
  readonly c: number;
}

/** A demand that lacks less than this, in its own unit, is kept. */
const KEPT = 1e-6;
/** A demand of whose product with itself less than this part is left is made of those that are held. */
const DEPENDENT = 1e-9;
/** A multiplier that goes down by less than this part does not let go. */
const NOTHING = 1e-12;
/** Turns after which it gives up: so many, and for each number as many more. Where it finds a change it takes about one for each demand that it holds. Our choice. */
const MOST_TURNS = 200;
const MOST_FOR_EACH = 3;

/**
 * @param weights `[n]` wᵢ > 0
 * @returns q `[n]`, or `null` where the demands can't all be kept, or only by a change that was not found in time
 */
export function leastChange(weights: ArrayLike<number>, demands: readonly Demand[]): Float64Array | null {
  const n = weights.length;
  const packed = packDemands(weights, demands);
  const { count: all, stiff } = packed;
  const q = new Float64Array(n);
  const held = new HeldDemands();
  const isHeld = new Uint8Array(all);
  const lacking = new Lacking(packed, isHeld);
  const room = Math.min(n, all) + 1;
  // of those that are held, in the order of `held`; at the end that of the one that comes in
  const multipliers = new Float64Array(room);
  const [half, loss, products] = [new Float64Array(room), new Float64Array(room), new Float64Array(room)];
  const [wanted, way] = [new Float64Array(n), new Float64Array(n)];
  for (let turn = MOST_TURNS + MOST_FOR_EACH * n; turn > 0; turn--) {
    const next = lacking.farthest(q);
    if (next < 0) return q;
    if (!(stiff[next]! > 0)) return null;
    wanted.fill(0);
    addDemand(packed, next, 1, weights, wanted);
    multipliers[held.count] = 0;
    for (; turn > 0; turn--) {
      const { count, which } = held;
      for (let i = 0; i < count; i++) products[i] = demandTimes(packed, which[i]!, wanted);
      let leftover = stiff[next]! - held.halfSolve(products, half);
      if (!(leftover > DEPENDENT * stiff[next]!) || count >= n) leftover = 0;
      loss.set(half);
      held.backSolve(loss);
      // how far the new demand can be pressed before one that is held lets go, and how far it has to be
      let [loose, until] = [-1, Infinity];
      for (let i = 0; i < count; i++) {
        if (loss[i]! > NOTHING && multipliers[i]! / loss[i]! < until) [loose, until] = [i, multipliers[i]! / loss[i]!];
      }
      const full = leftover > 0 ? lackOf(packed, next, q) / leftover : Infinity;
      const by = Math.min(until, full);
      if (by === Infinity) return null;
      if (leftover > 0) {
        way.set(wanted);
        for (let i = 0; i < count; i++) addDemand(packed, which[i]!, -loss[i]!, weights, way);
        for (let i = 0; i < n; i++) q[i]! += by * way[i]!;
      }
      for (let i = 0; i < count; i++) multipliers[i] = Math.max(0, multipliers[i]! - by * loss[i]!);
      multipliers[count]! += by;
      if (full <= until) {
        held.add(next, half, leftover);
        isHeld[next] = 1;
        break;
      }
      isHeld[which[loose]!] = 0;
      held.remove(loose);
      multipliers.copyWithin(loose, loose + 1, count + 1);
    }
  }
  return null;
}

/**
 * Finds the demand that lacks most, against what it takes to make it up. Most demands never lack: only those that lacked when all were
 * looked at are looked at again, until none of these does.
 */
class Lacking {
  private readonly packed: PackedDemands;
  private readonly isHeld: Uint8Array;
  private readonly some: Int32Array;
  private count = 0;

  constructor(packed: PackedDemands, isHeld: Uint8Array) {
    this.packed = packed;
    this.isHeld = isHeld;
    this.some = new Int32Array(packed.count);
  }

  /** -1: none lacks. */
  farthest(q: Float64Array): number {
    const { packed, isHeld, some } = this;
    let [which, most] = [-1, 0];
    for (let i = 0; i < this.count; i++) {
      const far = isHeld[some[i]!] === 1 ? 0 : farOff(packed, some[i]!, q);
      if (far > most) [which, most] = [some[i]!, far];
    }
    if (which >= 0) return which;
    this.count = 0;
    for (let j = 0; j < packed.count; j++) {
      const far = isHeld[j] === 1 ? 0 : farOff(packed, j, q);
      if (far <= 0) continue;
      some[this.count++] = j;
      if (far > most) [which, most] = [j, far];
    }
    return which;
  }
}

/** 0: kept. */
function farOff(packed: PackedDemands, j: number, q: Float64Array): number {
  const lack = lackOf(packed, j, q);
  if (lack <= KEPT) return 0;
  return packed.stiff[j]! > 0 ? lack / Math.sqrt(packed.stiff[j]!) : Infinity;
}
