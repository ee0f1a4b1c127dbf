/**
 * Teaches a network: the likelihood of a Student's t with five degrees of freedom, so that a few wild frames don't decide, and
 * Adam (Kingma & Ba 2015) with a rate that dies away along a cosine. Nothing is left to chance: the dice are seeded.
 */
import { addProduct, INPUT_LIMIT, LOG_SIGMA_RANGE, type Network } from '../../src/motion/fit/reader/network.ts';
import { stream } from '../clips/motion/stream.ts';
import type { Samples } from './samples.ts';

export interface Teaching {
  readonly first: number;
  readonly second: number;
  readonly epochs: number;
  readonly rate: number;
  /** Pull of the weights to 0, a step. */
  readonly decay: number;
  /** Noise on the inputs, in their own deviations: so that no landmark's last millimetre is learned by heart. */
  readonly noise: number;
  readonly seed: number;
}

const BATCH = 64;
const FREEDOM = 5;

const deviationOf = (values: Float64Array, width: number, column: number, mean: number): number => {
  let sum = 0;
  for (let i = column; i < values.length; i += width) sum += (values[i]! - mean) ** 2;
  return Math.sqrt(sum / (values.length / width));
};

/** Keeps a feature that never changes from being blown up. */
const LEAST_SCALE = 1e-3;

export function teach({ count, inputs, wanted }: Samples, t: Teaching): Network {
  const input = inputs.length / count;
  const output = wanted.length / count;
  const next = stream(t.seed);
  const bell = (): number => Math.sqrt(-2 * Math.log(next() + 1e-12)) * Math.cos(2 * Math.PI * next());
  const meanOf = (values: Float64Array, width: number): Float64Array => Float64Array.from({ length: width }, (_, k) => {
    let sum = 0;
    for (let i = k; i < values.length; i += width) sum += values[i]!;
    return sum / count;
  });
  const [inMean, outMean] = [meanOf(inputs, input), meanOf(wanted, output)];
  const inScale = inMean.map((mean, k) => deviationOf(inputs, input, k, mean) + LEAST_SCALE);
  const outScale = outMean.map((mean, k) => deviationOf(wanted, output, k, mean) + LEAST_SCALE);
  const x = inputs.map((value, i) => Math.min(INPUT_LIMIT, Math.max(-INPUT_LIMIT, (value - inMean[i % input]!) / inScale[i % input]!)));
  const y = wanted.map((value, i) => (value - outMean[i % output]!) / outScale[i % output]!);

  const fresh = (rows: number, columns: number, size: number): Float64Array => Float64Array.from({ length: rows * columns }, () => (size * bell()) / Math.sqrt(rows));
  const direct = new Float64Array(input * output);
  const first = fresh(input, t.first, 1);
  const second = fresh(t.first, t.second, 1);
  const third = fresh(t.second, 2 * output, 0.1);
  const firstBias = new Float64Array(t.first);
  const secondBias = new Float64Array(t.second);
  const thirdBias = new Float64Array(2 * output);
  const weights = [direct, first, second, third, firstBias, secondBias, thirdBias];
  const pulled = [true, true, true, true, false, false, false];
  const slopes = weights.map((w) => new Float64Array(w.length));
  const mean = weights.map((w) => new Float64Array(w.length));
  const square = weights.map((w) => new Float64Array(w.length));
  const [gDirect, gFirst, gSecond, gThird, gFirstBias, gSecondBias, gThirdBias] = slopes as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];

  const order = Int32Array.from({ length: count }, (_, i) => i);
  const perEpoch = Math.max(1, Math.floor(count / BATCH));
  const steps = t.epochs * perEpoch;
  const z = new Float64Array(input);
  const h1 = new Float64Array(t.first);
  const h2 = new Float64Array(t.second);
  const told = new Float64Array(2 * output);
  const back = new Float64Array(2 * output);
  const back2 = new Float64Array(t.second);
  const back1 = new Float64Array(t.first);
  let step = 0;
  for (let epoch = 0; epoch < t.epochs; epoch++) {
    for (let i = count - 1; i > 0; i--) {
      const j = Math.floor(next() * (i + 1));
      [order[i], order[j]] = [order[j]!, order[i]!];
    }
    for (let batch = 0; batch < perEpoch; batch++) {
      for (const slope of slopes) slope.fill(0);
      const from = batch * BATCH;
      const to = Math.min(count, from + BATCH);
      for (let n = from; n < to; n++) {
        const at = order[n]!;
        for (let i = 0; i < input; i++) z[i] = x[at * input + i]! + t.noise * bell();
        forward(z, first, firstBias, h1, true);
        forward(h1, second, secondBias, h2, true);
        forward(h2, third, thirdBias, told, false);
        for (let k = 0; k < output; k++) {
          let value = told[k]!;
          for (let i = 0; i < input; i++) value += z[i]! * direct[i * output + k]!;
          const log = Math.min(LOG_SIGMA_RANGE[1], Math.max(LOG_SIGMA_RANGE[0], told[output + k]!));
          const r = (value - y[at * output + k]!) * Math.exp(-log);
          const w = (FREEDOM + 1) / (FREEDOM + r * r);
          back[k] = (w * r * Math.exp(-log)) / (to - from);
          back[output + k] = (1 - w * r * r) / (to - from);
        }
        for (let i = 0; i < input; i++) for (let k = 0; k < output; k++) gDirect[i * output + k]! += z[i]! * back[k]!;
        backward(h2, third, back, gThird, gThirdBias, back2);
        for (let j = 0; j < back2.length; j++) back2[j]! *= 1 - h2[j]! ** 2;
        backward(h1, second, back2, gSecond, gSecondBias, back1);
        for (let j = 0; j < back1.length; j++) back1[j]! *= 1 - h1[j]! ** 2;
        backward(z, first, back1, gFirst, gFirstBias, null);
      }
      step++;
      const rate = (t.rate * (1 + Math.cos((Math.PI * step) / steps))) / 2;
      weights.forEach((w, k) => {
        const [g, m, v] = [slopes[k]!, mean[k]!, square[k]!];
        for (let i = 0; i < w.length; i++) {
          m[i] = 0.9 * m[i]! + 0.1 * g[i]!;
          v[i] = 0.999 * v[i]! + 0.001 * g[i]! ** 2;
          w[i]! -= rate * (m[i]! / (1 - 0.9 ** step) / (Math.sqrt(v[i]! / (1 - 0.999 ** step)) + 1e-8) + (pulled[k] === true ? t.decay * w[i]! : 0));
        }
      });
    }
  }
  return { sizes: { input, first: t.first, second: t.second, output }, inMean, inScale, outMean, outScale, direct, first, firstBias, second, secondBias, third, thirdBias };
}

function forward(x: Float64Array, weights: Float64Array, bias: Float64Array, out: Float64Array, bent: boolean): void {
  out.set(bias);
  addProduct(x, weights, out);
  if (bent) for (let j = 0; j < out.length; j++) out[j] = Math.tanh(out[j]!);
}

/** Adds the slopes of a layer's weights and writes what goes on to the layer before. */
function backward(x: Float64Array, weights: Float64Array, back: Float64Array, slope: Float64Array, slopeBias: Float64Array, on: Float64Array | null): void {
  for (let j = 0; j < back.length; j++) slopeBias[j]! += back[j]!;
  for (let i = 0; i < x.length; i++) {
    const at = i * back.length;
    const by = x[i]!;
    let sum = 0;
    for (let j = 0; j < back.length; j++) {
      slope[at + j]! += by * back[j]!;
      sum += weights[at + j]! * back[j]!;
    }
    if (on !== null) on[i] = sum;
  }
}
