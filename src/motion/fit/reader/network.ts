/**
 * The reader itself: a small network (two layers of tanh units beside a straight linear path) that says for each number it is
 * asked a value and how far off it may be.
 */

/**
 * Weights, row by row: `direct[in·out]` the linear path; `first[in·h1]`, `second[h1·h2]`, `third[h2·2·out]` the layers, with
 * their biases. Inputs are centred and scaled by `inMean`, `inScale`, outputs by `outMean`, `outScale`.
 */
export interface Network {
  readonly sizes: { readonly input: number; readonly first: number; readonly second: number; readonly output: number };
  readonly inMean: Float64Array;
  readonly inScale: Float64Array;
  readonly outMean: Float64Array;
  readonly outScale: Float64Array;
  readonly direct: Float64Array;
  readonly first: Float64Array;
  readonly firstBias: Float64Array;
  readonly second: Float64Array;
  readonly secondBias: Float64Array;
  readonly third: Float64Array;
  readonly thirdBias: Float64Array;
}

/** Inputs farther than this many deviations from what was learned count as this far. */
export const INPUT_LIMIT = 4;
/** Logarithm of sigma over the output's own deviation: between these. */
export const LOG_SIGMA_RANGE = [-4, 1] as const;

/** out[j] += Σ x[i]·weights[i·width + j], width the length of `out`; four rows at once, which keeps the order of the sum. */
export function addProduct(x: Float64Array, weights: Float64Array, out: Float64Array): void {
  const width = out.length;
  let i = 0;
  for (; i + 3 < x.length; i += 4) {
    const a = x[i]!;
    const b = x[i + 1]!;
    const c = x[i + 2]!;
    const d = x[i + 3]!;
    const at = i * width;
    const bt = at + width;
    const ct = bt + width;
    const dt = ct + width;
    for (let j = 0; j < width; j++) out[j] = out[j]! + a * weights[at + j]! + b * weights[bt + j]! + c * weights[ct + j]! + d * weights[dt + j]!;
  }
  for (; i < x.length; i++) {
    const by = x[i]!;
    const at = i * width;
    for (let j = 0; j < width; j++) out[j] = out[j]! + by * weights[at + j]!;
  }
}

/** Reads one set of inputs: values [output] and sigmas [output] are written. */
export function readInputs(net: Network, inputs: Float64Array, values: Float64Array, sigmas: Float64Array): void {
  const { input, first, second, output } = net.sizes;
  const x = new Float64Array(input);
  const { inMean, inScale } = net;
  for (let i = 0; i < input; i++) {
    const value = (inputs[i]! - inMean[i]!) / inScale[i]!;
    x[i] = value > INPUT_LIMIT ? INPUT_LIMIT : value < -INPUT_LIMIT ? -INPUT_LIMIT : value;
  }
  const h1 = bentLayer(x, net.first, net.firstBias, first);
  const h2 = bentLayer(h1, net.second, net.secondBias, second);
  const told = net.thirdBias.slice();
  addProduct(h2, net.third, told);
  const straight = new Float64Array(output);
  addProduct(x, net.direct, straight);
  const [least, most] = LOG_SIGMA_RANGE;
  for (let k = 0; k < output; k++) {
    values[k] = net.outMean[k]! + net.outScale[k]! * (told[k]! + straight[k]!);
    sigmas[k] = net.outScale[k]! * Math.exp(Math.min(most, Math.max(least, told[output + k]!)));
  }
}

function bentLayer(x: Float64Array, weights: Float64Array, bias: Float64Array, width: number): Float64Array {
  const out = bias.slice();
  addProduct(x, weights, out);
  for (let j = 0; j < width; j++) out[j] = Math.tanh(out[j]!);
  return out;
}
