/**
 * The least change that keeps some linear demands: minimise Σ wᵢ·qᵢ² while a·q ≥ c for every demand. Solved on its dual by
 * coordinate ascent (Hildreth 1957, Naval Res. Logist. Quart. 4:79-85; from memory): one multiplier a demand, each set in turn to
 * what its own demand needs, none below zero.
 */

/** a·q ≥ c, with a by the places at which it is not 0. */
export interface Demand {
  readonly at: readonly number[];
  readonly a: readonly number[];
  readonly c: number;
}

const ROUNDS = 1500;
const KEPT = 1e-4;
/** Rounds between looks at whether the lack still falls. */
const LOOK = 150;

/**
 * @param weights wᵢ > 0
 * @returns q, or `null` where the demands can't all be kept (to a thousandth of their unit)
 */
export function leastChange(weights: ArrayLike<number>, demands: readonly Demand[]): Float64Array | null {
  const q = new Float64Array(weights.length);
  const multipliers = new Float64Array(demands.length);
  const stiff = demands.map(({ at, a }) => a.reduce((sum, v, i) => sum + (v * v) / weights[at[i]!]!, 0));
  const lackOf = ({ at, a, c }: Demand): number => {
    let lack = c;
    for (let i = 0; i < a.length; i++) lack -= a[i]! * q[at[i]!]!;
    return lack;
  };
  let former = Infinity;
  for (let round = 1; round <= ROUNDS; round++) {
    let most = 0;
    for (let j = 0; j < demands.length; j++) {
      const demand = demands[j]!;
      const lack = lackOf(demand);
      if (lack > most) most = lack;
      if (!(stiff[j]! > 0)) continue;
      const by = Math.max(-multipliers[j]!, lack / stiff[j]!);
      if (by === 0) continue;
      multipliers[j]! += by;
      for (let i = 0; i < demand.a.length; i++) q[demand.at[i]!]! += (by * demand.a[i]!) / weights[demand.at[i]!]!;
    }
    // what was kept when it was looked at may have been undone later in the same round
    if (most <= KEPT && demands.every((demand) => lackOf(demand) <= KEPT)) return q;
    if (round % LOOK !== 0) continue;
    // what can't be kept stays as far off as it was
    if (most > 0.9 * former) break;
    former = most;
  }
  return demands.reduce((most, demand) => Math.max(most, lackOf(demand)), 0) < 1e-3 ? q : null;
}
