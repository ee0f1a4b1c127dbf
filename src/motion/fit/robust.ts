/**
 * Losses that stop a residual from pulling ever harder. Each gives the cost ρ(r) (r²/2 near zero is not halved here: ρ ≈ r²)
 * and the weight ρ'(r)/(2r) by which the residual enters the next linear step (iteratively reweighted least squares).
 */
export type Loss = 'square' | 'huber' | 'cauchy';

/** Cost of a residual, in the units of r². */
export function lossCost(loss: Loss, scale: number, r: number): number {
  const square = r * r;
  if (loss === 'square') return square;
  const c2 = scale * scale;
  if (loss === 'cauchy') return c2 * Math.log1p(square / c2);
  return square <= c2 ? square : 2 * scale * Math.abs(r) - c2;
}

/** Weight of a residual in the linear step: 1 near zero, falling where the loss gives way. */
export function lossWeight(loss: Loss, scale: number, r: number): number {
  if (loss === 'square') return 1;
  if (loss === 'cauchy') return 1 / (1 + (r * r) / (scale * scale));
  const size = Math.abs(r);
  return size <= scale ? 1 : scale / size;
}
