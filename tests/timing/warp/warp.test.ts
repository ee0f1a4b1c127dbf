/** The warp: monotone, exact at its anchors, straight when untouched, and back again. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pchip } from '../../../src/numeric/pchip.ts';
import { makeWarp, type Anchor } from '../../../src/timing/warp/warp.ts';

const anyAnchors: fc.Arbitrary<readonly Anchor[]> = fc
  .array(fc.record({ film: fc.double({ min: 0.05, max: 3, noNaN: true }), source: fc.oneof(fc.constant(0), fc.double({ min: 0.02, max: 4, noNaN: true })) }), { minLength: 1, maxLength: 9 })
  .map((gaps) => {
    let [filmS, sourceS] = [0, 1.5];
    return [{ filmS, sourceS }, ...gaps.map(({ film, source }) => ({ filmS: (filmS += film), sourceS: (sourceS += source) }))];
  });

describe('a warp', () => {
  it('hits every anchor exactly and never runs backwards', () => {
    fc.assert(fc.property(anyAnchors, (anchors) => {
      const warp = makeWarp(anchors);
      for (const { filmS, sourceS } of anchors) expect(warp.sourceAt(filmS)).toBe(sourceS);
      const end = anchors.at(-1)!.filmS;
      let before = -Infinity;
      for (let i = 0; i <= 400; i++) {
        const now = warp.sourceAt((end * i) / 400);
        expect(now).toBeGreaterThanOrEqual(before);
        before = now;
      }
      expect(warp.sourceAt(-1)).toBe(anchors[0]!.sourceS);
      expect(warp.sourceAt(end + 1)).toBe(anchors.at(-1)!.sourceS);
    }));
  });

  it('leads back: the film moment of a moment of the take shows it', () => {
    fc.assert(fc.property(anyAnchors, fc.double({ min: 0, max: 1, noNaN: true }), (anchors, share) => {
      const warp = makeWarp(anchors);
      const filmS = share * anchors.at(-1)!.filmS;
      const sourceS = warp.sourceAt(filmS);
      expect(Math.abs(warp.sourceAt(warp.filmAt(sourceS)) - sourceS)).toBeLessThan(1e-9);
    }));
  });

  it('has a speed without jumps, that of its own slope', () => {
    fc.assert(fc.property(anyAnchors, (anchors) => {
      const warp = makeWarp(anchors);
      const end = anchors.at(-1)!.filmS;
      for (const { filmS } of anchors.slice(1, -1)) {
        const fastest = Math.max(...anchors.slice(1).map((a, k) => (a.sourceS - anchors[k]!.sourceS) / (a.filmS - anchors[k]!.filmS)));
        expect(Math.abs(warp.speedAt(filmS - 1e-7) - warp.speedAt(filmS + 1e-7))).toBeLessThan(1e-4 * (1 + fastest));
      }
      for (let i = 1; i < 40; i++) {
        const at = (end * i) / 40;
        const slope = (warp.sourceAt(at + 1e-6) - warp.sourceAt(at - 1e-6)) / 2e-6;
        if (anchors.every(({ filmS }) => Math.abs(filmS - at) > 1e-5)) expect(Math.abs(warp.speedAt(at) - slope)).toBeLessThan(1e-3 * (1 + slope));
      }
    }), { numRuns: 40 });
  });

  it('is a straight line on anchors in one line', () => {
    const warp = makeWarp([0, 1, 1.7, 4].map((filmS) => ({ filmS, sourceS: 2 + filmS * 0.8 })));
    for (let t = 0; t <= 4; t += 0.13) expect(warp.sourceAt(t)).toBeCloseTo(2 + t * 0.8, 12);
  });

  it('between inner anchors is the PCHIP of numeric, which is checked against scipy', () => {
    // five anchors; at the ends numeric takes the three-point slope, so only the two inner spans must agree
    const anchors = [[0, 0], [1, 0.5], [2.5, 0.6], [4, 3], [6, 3.4], [7, 4]].map(([filmS, sourceS]) => ({ filmS: filmS!, sourceS: sourceS! }));
    const warp = makeWarp(anchors);
    const at = [1.2, 2, 2.4, 3, 3.9, 4.5, 5.5];
    const wanted = pchip(anchors.map(({ filmS }) => filmS), anchors.map(({ sourceS }) => sourceS), at);
    at.forEach((t, i) => expect(warp.sourceAt(t)).toBeCloseTo(wanted[i]!, 12));
  });

  it('holds a moment still between two anchors of one source time, with an ease into it and out of it', () => {
    const warp = makeWarp([{ filmS: 0, sourceS: 0 }, { filmS: 1, sourceS: 1 }, { filmS: 2, sourceS: 1 }, { filmS: 3, sourceS: 2 }]);
    for (const t of [1, 1.3, 1.9, 2]) expect(warp.sourceAt(t)).toBe(1);
    expect(warp.speedAt(1)).toBe(0);
    expect(warp.speedAt(0.95)).toBeLessThan(0.35);
    expect(warp.filmAt(1)).toBe(1);
  });
});
