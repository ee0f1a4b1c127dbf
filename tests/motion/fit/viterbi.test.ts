import { describe, expect, it } from 'vitest';
import { cheapestPath } from '../../../src/motion/fit/viterbi.ts';
import { evenNumbers } from './syntheticTake.ts';

describe('cheapestPath', () => {
  it('finds what trying every path finds', () => {
    const even = evenNumbers(4);
    for (let trial = 0; trial < 20; trial++) {
      const here = Float64Array.from({ length: 5 * 3 }, even);
      const turn = Array.from({ length: 5 * 9 }, even);
      const between = (t: number, a: number, b: number): number => turn[t * 9 + a * 3 + b]!;
      let best = Number.POSITIVE_INFINITY;
      let wanted: number[] = [];
      for (let code = 0; code < 3 ** 5; code++) {
        const path = Array.from({ length: 5 }, (_, t) => Math.floor(code / 3 ** t) % 3);
        const cost = path.reduce((sum, s, t) => sum + here[t * 3 + s]! + (t > 0 ? between(t, path[t - 1]!, s) : 0), 0);
        if (cost < best) [best, wanted] = [cost, path];
      }
      expect([...cheapestPath(here, 3, between)]).toEqual(wanted);
    }
  });
});
