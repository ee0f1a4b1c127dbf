/** Balance of every step of a plan: shapes only. */

/**
 * What a verdict says: would it stand, or look right, within its error? `tied`: a tie-down keeps it from falling. `caught`, of
 * motion alone: it is falling, and the foot that lands next lands where it holds, as in a walk.
 */
export const VERDICTS = ['holds', 'marginal', 'tied', 'falls', 'in the air', 'not known', 'caught'] as const;
export type Verdict = (typeof VERDICTS)[number];

/**
 * N steps, T things that may touch (soles first, in the order of the plan's feet; then what was said to touch).
 * Places on the set, mm: X forward, Y above the floor, Z to the left of the picture. NaN where not known.
 *
 * - `massMm[N·3]` the puppet's centre of mass with its props; `massSigmaMm[N·2]` one sigma of its place along X and along Z;
 *   `marginSigmaMm[N]` that part of it that leads over the nearest edge: the error of the margins.
 *   `moveSigmaMm[N]` the same for the extrapolated centre of mass.
 * - `movedMm[N·2]` the extrapolated centre of mass over the floor: X, Z.
 * - `performerM[N·3]` the performer's own centre of mass on the stage, metres.
 * - `touching[N·T]` 1 where it touches, as far as the take and what was said tell; `unseen[N·T]` 1 where neither does: the foot was
 *   hidden, it does not count as support, and only what stands without it is judged.
 * - `support[N]` outline of the base of support, `[x, z, x, z, …]` in order round it; empty in the air.
 * - `standMm[N]` shortest way from the foot point of the centre of mass to the edge, inside positive; `standShare[N]` the same
 *   over the width of the supporting foot. `moveMm[N]`, `moveShare[N]` the same for the extrapolated centre of mass.
 * - `standVerdict[N]`, `moveVerdict[N]` index in VERDICTS.
 * - `towardDeg[N]` which way it would go over the nearest edge: 0 forward (X), 90 to the left of the picture (Z); `moveTowardDeg[N]` likewise of the
 *   extrapolated centre of mass.
 * - `tippingNmm[N]` tipping moment about that edge, N·mm: positive where it would fall; 0 where it holds.
 * - `massG` of puppet without props.
 */
export interface Balance {
  readonly massG: number;
  readonly touchNames: readonly string[];
  readonly massMm: Float64Array;
  readonly massSigmaMm: Float64Array;
  readonly marginSigmaMm: Float64Array;
  readonly moveSigmaMm: Float64Array;
  readonly movedMm: Float64Array;
  readonly performerM: Float64Array;
  readonly touching: Uint8Array;
  readonly unseen: Uint8Array;
  readonly support: readonly Float64Array[];
  readonly standMm: Float64Array;
  readonly standShare: Float64Array;
  readonly moveMm: Float64Array;
  readonly moveShare: Float64Array;
  readonly standVerdict: Uint8Array;
  readonly moveVerdict: Uint8Array;
  readonly towardDeg: Float64Array;
  readonly moveTowardDeg: Float64Array;
  readonly tippingNmm: Float64Array;
  readonly oneLeg: readonly OneLegSpan[];
  readonly flights: readonly Flight[];
  readonly hardware: readonly HardwareNeed[];
  /** What could not be judged and why, in sentences. */
  readonly notes: readonly string[];
}

/** A while on one foot; steps from 0, both included. */
export interface OneLegSpan {
  readonly foot: string;
  readonly fromStep: number;
  readonly toStep: number;
  /** Where the margin of standing is least. */
  readonly worstStep: number;
  readonly worstMm: number;
}

/** Whether a flight takes the time that gravity gives it. */
export type FlightWord = 'in time' | 'floats' | 'drops';

/** A while in the air, with what a free fall of its apparent size would take. */
export interface Flight {
  readonly fromStep: number;
  readonly toStep: number;
  readonly kind: 'jump' | 'fall';
  /** From half-way between the last pose that touches and the first that does not, to half-way likewise. */
  readonly aloftS: number;
  /** By how much that may be wrong, since poses have gaps between them, s. */
  readonly aloftErrorS: number;
  /** Time that the same rise and fall takes at the apparent size, s. */
  readonly ballisticS: number;
  /** `floats`: longer in the air than it should be by more than the error; `drops`: shorter. */
  readonly reads: FlightWord;
  /** Largest distance of the centre of mass from its parabola, mm. */
  readonly offMm: number;
  /** Height of the parabola at each step of the flight, mm. */
  readonly parabolaMm: Float64Array;
}

/** Steps that need holding, and what must hold. */
export interface HardwareNeed {
  /** The sole to tie down; `null`: none that can be tied would hold it, so it takes a rig. */
  readonly foot: string | null;
  readonly fromStep: number;
  readonly toStep: number;
  readonly worstStep: number;
  /** Tipping moment about the edge of support at the worst step, N·mm: 0 where it stands by less than its error. */
  readonly tippingNmm: number;
  /** The same with the centre of mass one sigma farther out. */
  readonly mostNmm: number;
  /** Pull on a tie-down in the middle of the sole that balances `mostNmm`; of a rig the whole weight. N. */
  readonly holdN: number;
}
