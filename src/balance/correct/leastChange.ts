/**
 * The least change that keeps some linear demands: minimise Σ wᵢ·qᵢ² while a·q ≥ c for every demand. Solved by the dual
 * active-set method of Goldfarb & Idnani (1983, Math. Programming 27:1-33; also Nocedal & Wright, Numerical Optimization, ch. 16; both from
 * memory). It begins with no change at all and takes in the demand that lacks most, holding it exactly, until none lacks; one that is
 * held and would rather let go is let go. It ends after finitely many turns, and it knows when demands contradict each other.
 */
import { HeldDemands } from './heldDemands.ts';

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
/** Turns for each demand and number; a handful is usual. */
const MOST_TURNS = 20;

/**
 * @param weights `[n]` wᵢ > 0
 * @returns q `[n]`, or `null` where the demands can't all be kept
 */
export function leastChange(weights: ArrayLike<number>, demands: readonly Demand[]): Float64Array | null {
  const n = weights.length;
  const q = new Float64Array(n);
  const held = new HeldDemands();
  const isHeld = new Uint8Array(demands.length);
  const stiff = Float64Array.from(demands, ({ at, a }) => a.reduce((sum, v, i) => sum + (v * v) / weights[at[i]!]!, 0));
  // a multiplier for each demand that is held, in the order of `held`; the last is of the one that comes in
  let multipliers: number[] = [];
  const room = Math.min(n, demands.length) + 1;
  const half = new Float64Array(room);
  const ease = new Float64Array(room);
  const products = new Float64Array(room);
  const wanted = new Float64Array(n);
  const way = new Float64Array(n);
  const lackOf = (j: number): number => {
    const { at, a, c } = demands[j]!;
    let lack = c;
    for (let i = 0; i < at.length; i++) lack -= a[i]! * q[at[i]!]!;
    return lack;
  };
  for (let turn = MOST_TURNS * (demands.length + n); turn > 0; turn--) {
    const next = farthest(demands.length, isHeld, stiff, lackOf);
    if (next < 0) return q;
    if (!(stiff[next]! > 0)) return null;
    const coming = demands[next]!;
    wanted.fill(0);
    for (let i = 0; i < coming.at.length; i++) wanted[coming.at[i]!]! += coming.a[i]! / weights[coming.at[i]!]!;
    multipliers.push(0);
    for (; turn > 0; turn--) {
      const count = held.count;
      for (let i = 0; i < count; i++) {
        const { at, a } = demands[held.which[i]!]!;
        let sum = 0;
        for (let k = 0; k < at.length; k++) sum += a[k]! * wanted[at[k]!]!;
        products[i] = sum;
      }
      let leftover = stiff[next]! - held.halfSolve(products, half);
      if (!(leftover > DEPENDENT * stiff[next]!) || count >= n) leftover = 0;
      for (let i = 0; i < count; i++) ease[i] = half[i]!;
      held.backSolve(ease);
      // how far the new demand can be pressed before one that is held lets go, and how far it has to be
      let [loose, until] = [-1, Infinity];
      for (let i = 0; i < count; i++) {
        if (!(ease[i]! > 1e-12) || multipliers[i]! / ease[i]! >= until) continue;
        [loose, until] = [i, multipliers[i]! / ease[i]!];
      }
      const full = leftover > 0 ? lackOf(next) / leftover : Infinity;
      const by = Math.min(until, full);
      if (by === Infinity) return null;
      if (leftover > 0) {
        way.set(wanted);
        for (let i = 0; i < count; i++) {
          const { at, a } = demands[held.which[i]!]!;
          for (let k = 0; k < at.length; k++) way[at[k]!]! -= (ease[i]! * a[k]!) / weights[at[k]!]!;
        }
        for (let i = 0; i < n; i++) q[i]! += by * way[i]!;
      }
      for (let i = 0; i < count; i++) multipliers[i] = Math.max(0, multipliers[i]! - by * ease[i]!);
      multipliers[count]! += by;
      if (full <= until) {
        held.add(next, half, leftover);
        isHeld[next] = 1;
        break;
      }
      isHeld[held.which[loose]!] = 0;
      held.remove(loose);
      multipliers = multipliers.filter((_, i) => i !== loose);
    }
  }
  return null;
}

/** The demand that lacks most, against what it takes to make it up; -1: none lacks. */
function farthest(count: number, isHeld: Uint8Array, stiff: Float64Array, lackOf: (j: number) => number): number {
  let [which, most] = [-1, 0];
  for (let j = 0; j < count; j++) {
    if (isHeld[j] === 1) continue;
    const lack = lackOf(j);
    if (lack <= KEPT) continue;
    const far = stiff[j]! > 0 ? lack / Math.sqrt(stiff[j]!) : Infinity;
    if (far > most) [which, most] = [j, far];
  }
  return which;
}
