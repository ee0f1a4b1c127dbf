import { describe, expect, it } from 'vitest';
import { teach } from '../../scripts/reader/train.ts';
import { readInputs } from '../../src/motion/fit/reader/network.ts';
import { evenNumbers } from '../motion/fit/syntheticTake.ts';

describe('teaching a reader', () => {
  it('learns a bent surface and how far off it is', () => {
    const even = evenNumbers(11);
    const count = 600;
    const inputs = Float64Array.from({ length: count * 3 }, () => even() * 2 - 1);
    const truth = (i: number): number => Math.sin(2 * inputs[i * 3]!) + inputs[i * 3 + 1]!;
    // where the third input is large, what is wanted is thrown about
    const wanted = Float64Array.from({ length: count }, (_, i) => truth(i) + (even() - 0.5) * (inputs[i * 3 + 2]! > 0 ? 0.8 : 0.08));
    const net = teach({ count, inputs, wanted }, { first: 12, second: 8, epochs: 60, rate: 0.01, decay: 1e-4, noise: 0, seed: 2 });
    const [value, sigma] = [new Float64Array(1), new Float64Array(1)];
    let square = 0;
    const told = [0, 0];
    for (let i = 0; i < count; i++) {
      readInputs(net, inputs.subarray(i * 3, i * 3 + 3), value, sigma);
      square += (value[0]! - truth(i)) ** 2;
      told[inputs[i * 3 + 2]! > 0 ? 1 : 0]! += sigma[0]! / (count / 2);
    }
    expect(Math.sqrt(square / count)).toBeLessThan(0.12);
    expect(told[1]! / told[0]!).toBeGreaterThan(4);
  });
});
