/** A move laid through its own way comes back exactly; the noise of a speed is what it is said to be. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { syntheticMotion } from '../../../scripts/pace/syntheticMotion.ts';
import { minimumJerk } from '../../../src/numeric/minimumJerk.ts';
import { fitMove } from '../../../src/timing/moments/fitMove.ts';
import { calmed, limbSpeeds, noiseDegPerS } from '../../../src/timing/moments/limbSpeed.ts';
import { LIMBS } from '../../../src/timing/moments/moments.ts';
import { fourthDifferenceGain, meanGain } from '../../../src/timing/moments/noiseGain.ts';

const timesS = Float64Array.from({ length: 91 }, (_, t) => t / 30);
/** Half of one minimum-jerk move up to the peak, half of another one from there, both with the same speed where they meet. */
const wayOf = (startS: number, peakS: number, endS: number, sizeDeg: number): Float64Array => {
  const [rise, fall] = [peakS - startS, endS - peakS];
  const part = rise / (rise + fall);
  return timesS.map((t) => sizeDeg * (t < peakS ? 2 * part * minimumJerk((t - startS) / (2 * rise)) : 1 - 2 * (1 - part) * (1 - minimumJerk(1 - (endS - t) / (2 * fall)))));
};

describe('a move laid through its way', () => {
  it('finds start, peak and end of any ease, from a first guess that is off', () => {
    fc.assert(fc.property(
      fc.double({ min: 0.3, max: 1, noNaN: true }), fc.double({ min: 0.2, max: 0.8, noNaN: true }), fc.double({ min: 0.2, max: 0.8, noNaN: true }),
      fc.double({ min: 5, max: 120, noNaN: true }), fc.boolean(), fc.double({ min: -0.08, max: 0.08, noNaN: true }),
      (startS, rise, fall, sizeDeg, back, off) => {
        const [peakS, endS] = [startS + rise, startS + rise + fall];
        const way = wayOf(startS, peakS, endS, back ? -sizeDeg : sizeDeg);
        const found = fitMove(timesS, way, 0, timesS.length - 1, { startS: startS + off, peakS, endS: endS - off, peak: (back ? -1 : 1) * 1.9 * sizeDeg / (rise + fall), fixStart: false, fixEnd: false });
        expect(found.startS).toBeCloseTo(startS, 2);
        expect(found.peakS).toBeCloseTo(peakS, 2);
        expect(found.endS).toBeCloseTo(endS, 2);
        expect(found.leftBefore + found.leftAfter).toBeLessThan(0.01 * sizeDeg);
      },
    ), { numRuns: 200, seed: 7 });
  });

  it('a side that is fixed stays', () => {
    const found = fitMove(timesS, wayOf(1, 1.5, 2, 40), 30, 75, { startS: 1, peakS: 1.4, endS: 2.2, peak: 70, fixStart: true, fixEnd: false });
    expect(found.startS).toBe(1);
    expect(found.endS).toBeCloseTo(2, 2);
  });
});

describe('noise of a speed', () => {
  /** Root mean square of the speed of a limb that only trembles, ° a second. */
  const rms = (values: Float64Array): number => Math.sqrt(values.slice(15, -15).reduce((sum, v) => sum + v * v, 0) / (values.length - 30));

  /** Told noise over what it is, of a still arm: as measured, and as mean over a window of 0.2 s. */
  function toldAgainstTrue(noise: { readonly noiseDeg: number; readonly wanderDeg?: number; readonly cutoffHz?: number }): { readonly measured: number; readonly calm: number } {
    let [told, is, toldCalm, isCalm] = [0, 0, 0, 0];
    for (const seed of [1, 2, 3, 4]) {
      const motion = syntheticMotion([], { lengthS: 20, framesPerS: 30, seed, ...noise });
      const speed = limbSpeeds(motion, 1).limbs[LIMBS.indexOf('rightArm')]!;
      const calm = calmed(speed, motion, 1, 0.2);
      told += noiseDegPerS(speed);
      is += rms(speed.degPerS);
      toldCalm += noiseDegPerS(calm);
      isCalm += rms(calm.degPerS);
    }
    return { measured: told / is, calm: toldCalm / isCalm };
  }

  it.each([2.5, 3.5, 6])('is told within a sixth of what it is at a cut-off of %s Hz, as measured and as mean over a window', (cutoffHz) => {
    const { measured, calm } = toldAgainstTrue({ noiseDeg: 0.5, cutoffHz });
    expect(measured).toBeGreaterThan(5 / 6);
    expect(measured).toBeLessThan(6 / 5);
    expect(calm).toBeGreaterThan(5 / 6);
    // seven frames are a little more than the window
    expect(calm).toBeLessThan(1.45);
  });

  it.each([0.5, 1, 2, 3])('of a pose that wanders by %s° as well is told within a fifth, as measured and as mean over a window', (wanderDeg) => {
    const { measured, calm } = toldAgainstTrue({ noiseDeg: 0.5, wanderDeg });
    for (const part of [measured, calm]) {
      expect(part).toBeGreaterThan(5 / 6);
      expect(part).toBeLessThan(6 / 5);
    }
  });

  it('is not told larger by a limb that swings all the time, nor by one that moves seldom', () => {
    const swings = Array.from({ length: 14 }, (_, k) => ({ startS: k * 0.7, endS: (k + 1) * 0.7, byDeg: k % 2 === 0 ? 5 : -5 }));
    const told = (moves: typeof swings): number => noiseDegPerS(limbSpeeds(syntheticMotion([{ joint: 'rightElbow', moves }], { lengthS: 10, framesPerS: 30, noiseDeg: 0.5, seed: 3 }), 1).limbs[LIMBS.indexOf('rightArm')]!);
    for (const moves of [swings, [{ startS: 4, endS: 4.6, byDeg: 90 }]]) expect(told(moves) / told([])).toBeLessThan(1.2);
  });

  it('a mean of one frame changes nothing, and differences of slow noise are small', () => {
    for (const spacingS of [0.01, 1 / 30, 0.2]) expect(meanGain('white', 3.5, 1, spacingS)).toBeCloseTo(1, 9);
    expect(fourthDifferenceGain(0.5, 1 / 15)).toBeLessThan(0.01);
  });
});
