/**
 * One stretch smoothed by the penalised smoother, twiced (`numeric/penalised.ts`): frames at their own times, each weighed by
 * how surely it was seen, those that were only bridged by nothing.
 */
import { factorPenalised, type PenalisedFactor, type PenaltyOrder, roughnessOf, smoothTwiced, twicedStiffnessFor } from '../numeric/penalised.ts';
import { medianInterval } from './evenGrid.ts';
import type { Pass } from './smoothing.ts';

/** Order of the differences: 3 cuts off more sharply than 2 and so leaves more of a move for the same jitter (docs/smoothing.md). */
export const PENALTY_ORDER: PenaltyOrder = 3;

/** Fewest frames of a stretch: one more than the parabola that no stiffness bends. */
export const PENALISED_NEEDS = PENALTY_ORDER + 1;

/**
 * @param frameS times of the stretch, {@link PENALISED_NEEDS} or more
 * @param cutoffHz frequency of which evenly spaced, surely seen frames keep 1/√2
 */
export function penalisedPass(frameS: Float64Array, cutoffHz: number): Pass['smooth'] {
  const interval = medianInterval(frameS);
  const roughness = roughnessOf(frameS, interval, PENALTY_ORDER, twicedStiffnessFor(cutoffHz * interval, PENALTY_ORDER));
  let plain: PenalisedFactor | undefined;
  return (values, first, stride, width, weights) => {
    if (weights === null || !hasEnough(weights)) {
      plain ??= factorPenalised(roughness, null);
      smoothTwiced(plain, values, stride, first, width);
      return;
    }
    smoothTwiced(factorPenalised(roughness, weights), values, stride, first, width);
  };
}

/** Whether enough frames count at all for the equations to have one answer. */
function hasEnough(weights: Float64Array): boolean {
  let count = 0;
  for (let k = 0; k < weights.length && count < PENALISED_NEEDS; k++) if (weights[k]! > 0) count++;
  return count >= PENALISED_NEEDS;
}
