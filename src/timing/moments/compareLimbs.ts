/** Limbs held against each other over a span of steps: how fast, who leads, who overlaps. */
import type { LimbRates } from './limbRates.ts';
import { lagBetween, type Lag } from './lag.ts';
import { LIMBS, type Limb, type MoveOnSteps } from './moments.ts';

export interface LimbInSpan {
  readonly limb: Limb;
  /** Mean and most over the span, degrees a step; NaN where nothing is known. */
  readonly meanDeg: number;
  readonly mostDeg: number;
  /** Where it is fastest, from 0. */
  readonly fastestStep: number;
  /** Of its mean to that of the limb that moves most; 1 for that one. */
  readonly ratio: number;
  /** After the limb that moves most, by the likeness of their speeds; `null` where that can't be told. */
  readonly lag: Lag | null;
  /** First start of a move within the span, from 0; `null` where it makes none. */
  readonly startStep: number | null;
}

export interface SpanComparison {
  readonly limbs: readonly LimbInSpan[];
  /** The limb that moves most, which the others are held against; `null` where none moves. */
  readonly most: Limb | null;
  /** The first in time, by likeness (if sure enough) and by starts of moves. */
  readonly leadsByLag: Limb | null;
  readonly leadsByStart: Limb | null;
  /** Left over right, mean turns; NaN where one of them stays. */
  readonly armsLeftOverRight: number;
  readonly legsLeftOverRight: number;
}

/** Lags beyond a second of film on twos are other moves. Our choice. */
const MOST_LAG_STEPS = 12;
/** A lag that is less sure than this leads nothing. Our choice. */
export const SURE_LAG = 0.25;
/** A limb that turns less than this in its fastest step does not move, degrees. Our choice. */
const STILL_DEG = 0.5;

/** @param from,to steps from 0, both included */
export function compareLimbs(rates: LimbRates, moves: readonly MoveOnSteps[], from: number, to: number): SpanComparison {
  const width = LIMBS.length;
  const turns = LIMBS.map((_, l) => Float64Array.from({ length: Math.max(0, to - from + 1) }, (__, k) => rates.turnDeg[(from + k) * width + l]!));
  const facts = turns.map((own) => {
    let [sum, known, most, fastest] = [0, 0, Number.NaN, from];
    own.forEach((turn, k) => {
      if (Number.isNaN(turn)) return;
      sum += turn;
      known += 1;
      if (!(turn <= most)) {
        most = turn;
        fastest = from + k;
      }
    });
    return { meanDeg: known === 0 ? Number.NaN : sum / known, mostDeg: most, fastestStep: fastest };
  });
  let lead = -1;
  facts.forEach(({ meanDeg, mostDeg }, l) => {
    if (mostDeg >= STILL_DEG && (lead < 0 || meanDeg > facts[lead]!.meanDeg)) lead = l;
  });
  const limbs = LIMBS.map((limb, l): LimbInSpan => {
    const own = facts[l]!;
    const starts = moves.filter((move) => move.of === limb && move.endStep > from && move.startStep < to).map((move) => Math.max(from, move.startStep));
    return {
      limb, ...own,
      ratio: lead < 0 ? Number.NaN : own.meanDeg / facts[lead]!.meanDeg,
      lag: lead < 0 || own.mostDeg < STILL_DEG ? null : l === lead ? { steps: 0, confidence: 1 } : lagBetween(turns[lead]!, turns[l]!, MOST_LAG_STEPS),
      startStep: starts.length === 0 ? null : Math.min(...starts),
    };
  });
  const sure = limbs.filter(({ lag }) => lag !== null && lag.confidence >= SURE_LAG);
  const started = limbs.filter(({ startStep }) => startStep !== null);
  const over = (left: Limb, right: Limb): number => {
    const [a, b] = [left, right].map((limb) => facts[LIMBS.indexOf(limb)]!);
    return a!.mostDeg >= STILL_DEG && b!.mostDeg >= STILL_DEG ? a!.meanDeg / b!.meanDeg : Number.NaN;
  };
  return {
    limbs, most: lead < 0 ? null : LIMBS[lead]!,
    leadsByLag: sure.length < 2 ? null : sure.reduce((first, one) => (one.lag!.steps < first.lag!.steps ? one : first)).limb,
    leadsByStart: started.length < 2 ? null : started.reduce((first, one) => (one.startStep! < first.startStep! ? one : first)).limb,
    armsLeftOverRight: over('leftArm', 'rightArm'), legsLeftOverRight: over('leftLeg', 'rightLeg'),
  };
}

export interface Overlap {
  /** Steps in which both move over steps in which either does. */
  readonly share: number;
  /** By how many steps the second starts, and stops, after the first. */
  readonly startSpread: number;
  readonly settleSpread: number;
}

/** How two moves overlap. */
export function overlapOf(a: Pick<MoveOnSteps, 'startStep' | 'endStep'>, b: Pick<MoveOnSteps, 'startStep' | 'endStep'>): Overlap {
  const shared = Math.max(0, Math.min(a.endStep, b.endStep) - Math.max(a.startStep, b.startStep));
  const union = a.endStep - a.startStep + b.endStep - b.startStep - shared;
  return { share: union > 0 ? shared / union : 0, startSpread: b.startStep - a.startStep, settleSpread: b.endStep - a.endStep };
}
