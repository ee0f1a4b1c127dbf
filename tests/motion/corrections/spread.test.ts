import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clockOf, kernel, spreadWords } from '../../../src/motion/corrections/spread.ts';

const timesS = Float64Array.from({ length: 121 }, (_, t) => t / 30);
const still = new Float64Array(121);

describe('how far a word carries', () => {
  it('by a kernel that ends after a second, level at its top', () => {
    expect(kernel(0)).toBe(1);
    expect(kernel(0.267)).toBeCloseTo(0.709, 3);
    expect(kernel(1)).toBe(0);
    expect(kernel(-0.3)).toBe(kernel(0.3));
    expect(1 - kernel(1e-4)).toBeLessThan(1e-6);
  });

  it('says in a frame what was said of it, and nothing a second away', () => {
    const { values, share } = spreadWords(clockOf(timesS, still, still), [{ frame: 60, values: [8, -3] }]);
    expect([values[120], values[121], share[60]]).toEqual([8, -3, 1]);
    for (const t of [0, 29, 30, 90, 120]) expect([values[t * 2], share[t]]).toEqual([0, 0]);
    for (let t = 60; t < 90; t++) expect(values[t * 2 + 2]!).toBeLessThanOrEqual(values[t * 2]!);
    // Even about the frame: nothing is shifted in time.
    for (let k = 1; k < 30; k++) expect(values[(60 + k) * 2]).toBeCloseTo(values[(60 - k) * 2]!, 9);
  });

  it('reaches less far while the joint moves, and ends where its landmark jumps', () => {
    const at = (speed: number, jump: number): number => {
      const jumps = still.slice();
      jumps[65] = jump;
      return spreadWords(clockOf(timesS, still.map(() => speed), jumps), [{ frame: 60, values: [1] }]).values[68]!;
    };
    expect(at(0.5, 0)).toBeLessThan(0.7 * at(0, 0));
    expect(at(0, 1)).toBe(0);
  });

  it('joins several words: each holds in its frame, a second word of none ends the first', () => {
    const clock = clockOf(timesS, still, still);
    fc.assert(fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 120 }), { minLength: 1, maxLength: 12 }), fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 12, maxLength: 12 }), (frames, said) => {
      const words = frames.map((frame, i) => ({ frame, values: [said[i]!] }));
      const { values, share } = spreadWords(clock, words);
      for (const word of words) expect(values[word.frame]).toBeCloseTo(word.values[0]!, 9);
      for (const v of values) expect(Number.isFinite(v)).toBe(true);
      const [low, high] = [Math.min(0, ...words.map((word) => word.values[0]!)), Math.max(0, ...words.map((word) => word.values[0]!))];
      for (const v of values) expect(v >= low - 1e-9 && v <= high + 1e-9).toBe(true);
      for (const s of share) expect(s >= 0 && s <= 1).toBe(true);
    }));
    const alone = spreadWords(clock, [{ frame: 60, values: [10] }]).values;
    const bounded = spreadWords(clock, [{ frame: 60, values: [10] }, { frame: 66, values: [0] }]).values;
    expect(bounded[66]).toBe(0);
    expect([bounded[70], alone[70]! > 4]).toEqual([0, true]);
  });

  it('takes the last of several words about one frame', () => {
    expect(spreadWords(clockOf(timesS, still, still), [{ frame: 3, values: [1] }, { frame: 3, values: [2] }]).values[3]).toBe(2);
  });
});
