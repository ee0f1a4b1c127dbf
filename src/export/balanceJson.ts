/** The balance of a plan as `plan.json` carries it. */
import type { Balance, FlightWord, Verdict } from '../balance/balance.ts';
import { verdictOf, wayOf, type Way } from '../balance/words.ts';
import { PLACES, rounded } from './rounding.ts';

/** Of the whole plan. Steps from 1, both ends included. */
export interface PlanJsonBalance {
  readonly massG: number;
  readonly oneLeg: readonly { readonly foot: string; readonly fromStep: number; readonly toStep: number; readonly worstStep: number; readonly worstMm: number | null }[];
  readonly flights: readonly {
    readonly fromStep: number; readonly toStep: number; readonly kind: 'jump' | 'fall'; readonly aloftS: number; readonly aloftErrorS: number;
    readonly ballisticS: number; readonly reads: FlightWord; readonly offMm: number; readonly parabolaMm: readonly number[];
  }[];
  readonly hardware: readonly {
    /** `null`: a rig. */
    readonly foot: string | null; readonly fromStep: number; readonly toStep: number; readonly worstStep: number;
    readonly tippingNmm: number; readonly mostNmm: number; readonly holdN: number;
  }[];
  readonly notes: readonly string[];
}

/** Of one step. Places on the set, mm; what is not known is null. */
export interface PlanJsonStepBalance {
  readonly massMm: readonly number[] | null;
  /** Along X and Z. */
  readonly massErrorMm: readonly number[] | null;
  readonly extrapolatedMm: readonly number[] | null;
  readonly touching: readonly string[];
  /** Feet of which nothing tells whether they touch. */
  readonly unseen: readonly string[];
  readonly standMm: number | null;
  readonly standShare: number | null;
  readonly standErrorMm: number | null;
  readonly stands: Verdict;
  readonly moveMm: number | null;
  readonly moveShare: number | null;
  readonly moveErrorMm: number | null;
  readonly looksRight: Verdict;
  readonly toward: Way | null;
  readonly moveToward: Way | null;
  readonly tippingNmm: number | null;
}

export function balanceToJson({ massG, oneLeg, flights, hardware, notes }: Balance): PlanJsonBalance {
  const mm = (value: number): number => rounded(value, PLACES.millimetres) ?? 0;
  const seconds = (value: number): number => rounded(value, PLACES.seconds) ?? 0;
  const span = ({ fromStep, toStep }: { readonly fromStep: number; readonly toStep: number }): { fromStep: number; toStep: number } => ({ fromStep: fromStep + 1, toStep: toStep + 1 });
  return {
    massG: mm(massG),
    oneLeg: oneLeg.map((one) => ({ foot: one.foot, ...span(one), worstStep: one.worstStep + 1, worstMm: rounded(one.worstMm, PLACES.millimetres) })),
    flights: flights.map((one) => ({
      ...span(one), kind: one.kind, aloftS: seconds(one.aloftS), aloftErrorS: seconds(one.aloftErrorS), ballisticS: seconds(one.ballisticS), reads: one.reads,
      offMm: mm(one.offMm), parabolaMm: [...one.parabolaMm].map(mm),
    })),
    hardware: hardware.map((one) => ({
      foot: one.foot, ...span(one), worstStep: one.worstStep + 1, tippingNmm: mm(one.tippingNmm), mostNmm: mm(one.mostNmm), holdN: mm(one.holdN),
    })),
    notes: [...notes],
  };
}

export function stepBalance(balance: Balance, step: number): PlanJsonStepBalance {
  const { touchNames, touching, unseen } = balance;
  const all = (values: Float64Array, width: number): readonly number[] | null => {
    const out = [...values.subarray(step * width, (step + 1) * width)].flatMap((value) => rounded(value, PLACES.millimetres) ?? []);
    return out.length === width ? out : null;
  };
  const one = (values: Float64Array): number | null => rounded(values[step]!, PLACES.millimetres);
  return {
    massMm: all(balance.massMm, 3), massErrorMm: all(balance.massSigmaMm, 2), extrapolatedMm: all(balance.movedMm, 2),
    touching: touchNames.filter((_, k) => touching[step * touchNames.length + k] === 1),
    unseen: touchNames.filter((_, k) => unseen[step * touchNames.length + k] === 1),
    standMm: one(balance.standMm), standShare: one(balance.standShare), standErrorMm: one(balance.marginSigmaMm), stands: verdictOf(balance.standVerdict[step]!),
    moveMm: one(balance.moveMm), moveShare: one(balance.moveShare), moveErrorMm: one(balance.moveSigmaMm), looksRight: verdictOf(balance.moveVerdict[step]!),
    toward: wayOf(balance.towardDeg[step]!), moveToward: wayOf(balance.moveTowardDeg[step]!), tippingNmm: one(balance.tippingNmm),
  };
}
