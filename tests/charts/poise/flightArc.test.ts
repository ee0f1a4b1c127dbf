/** The arc of a flight against free fall: what is drawn is what was judged. */
import { describe, expect, it } from 'vitest';
import { flightsOf } from '../../../src/balance/flights.ts';
import { ARC_PAD, fallHeightAt, flightArc, nearestFlight } from '../../../src/charts/poise/flightArc.ts';
import { GRAVITY_M_S2 } from '../../../src/puppet/timeScale.ts';

/** A 280 mm puppet that reads as 1.6 m, on twos at 24. */
const MM_PER_M = 175;
const G = GRAVITY_M_S2 * MM_PER_M;
const STEP_S = 1 / 12;
const SIZE = { widthPx: 360, heightPx: 250 };

/** Leaves after step 3 (from 0) upward, is in the air in steps 4 to 8. */
function jump(offMm: (k: number) => number = () => 0): { massMm: Float64Array; filmTimeS: Float64Array; flight: ReturnType<typeof flightsOf>[number]['flight'] } {
  const count = 13;
  const filmTimeS = Float64Array.from({ length: count }, (_, s) => s * STEP_S);
  const [from, to] = [4, 8];
  const speed = (G * (to - from + 1) * STEP_S) / 2;
  const massMm = new Float64Array(count * 3);
  for (let s = 0; s < count; s++) {
    const t = (s - from + 0.5) * STEP_S;
    massMm[s * 3 + 1] = s < from || s > to ? 150 : 150 + speed * t - (G * t * t) / 2 + offMm(s - from);
  }
  const aloft = Uint8Array.from({ length: count }, (_, s) => Number(s >= from && s <= to));
  const { flight } = flightsOf({ aloft, grounded: aloft.map((v) => 1 - v), massMm, filmTimeS, mmPerM: MM_PER_M })[0]!;
  return { massMm, filmTimeS, flight };
}

describe('the parabola', () => {
  it('goes through the heights that were judged, bends by gravity and meets a true jump everywhere', () => {
    const { flight, filmTimeS, massMm } = jump((k) => [3, -5, 2, 6, -1][k]!);
    for (let s = flight.fromStep; s <= flight.toStep; s++) expect(fallHeightAt(flight, filmTimeS, G, filmTimeS[s]!)).toBeCloseTo(flight.parabolaMm[s - flight.fromStep]!, 9);
    const h = (t: number): number => fallHeightAt(flight, filmTimeS, G, t);
    expect((h(0.5) - 2 * h(0.49) + h(0.48)) / 0.01 ** 2).toBeCloseTo(-G, 3);
    const exact = jump();
    for (let s = exact.flight.fromStep; s <= exact.flight.toStep; s++) expect(fallHeightAt(exact.flight, filmTimeS, G, filmTimeS[s]!)).toBeCloseTo(exact.massMm[s * 3 + 1]!, 9);
    expect(massMm).toHaveLength(39);
  });

  it('of a flight of one step stands at its top there', () => {
    const flight = { ...jump().flight, fromStep: 4, toStep: 4, parabolaMm: Float64Array.of(170) };
    const times = jump().filmTimeS;
    expect(fallHeightAt(flight, times, G, times[4]!)).toBe(170);
    expect(fallHeightAt(flight, times, G, times[4]! + 0.04)).toBeCloseTo(170 - (G * 0.04 ** 2) / 2, 9);
    const arc = flightArc({ ...jump(), flight, gravityMmS2: G, ...SIZE });
    expect(arc.fall).not.toContain('NaN');
  });
});

describe('the chart', () => {
  const arc = flightArc({ ...jump(), gravityMmS2: G, ...SIZE });

  it('has the steps of the flight and one that touches on each side, higher up where the mass is higher', () => {
    expect(arc.points.map(({ step, inAir }) => [step, inAir])).toEqual([[3, false], [4, true], [5, true], [6, true], [7, true], [8, true], [9, false]]);
    const top = arc.points.reduce((a, b) => (b.y < a.y ? b : a));
    expect(top.step).toBe(6);
    for (const { x, y } of arc.points) {
      expect(x).toBeGreaterThanOrEqual(ARC_PAD.left);
      expect(x).toBeLessThanOrEqual(SIZE.widthPx - ARC_PAD.right);
      expect(y).toBeGreaterThanOrEqual(ARC_PAD.top);
      expect(y).toBeLessThanOrEqual(SIZE.heightPx - ARC_PAD.bottom);
    }
  });

  it('counts steps from 1 and has units at both axes', () => {
    expect(arc.ticksX.map(({ words }) => words)).toEqual(['4', '5', '6', '7', '8', '9', '10']);
    expect(arc.wordsX).toBe('step, 0.083 s of film apart');
    expect(arc.wordsY).toContain('mm');
    expect(arc.ticksY.length).toBeGreaterThanOrEqual(3);
    // half-way between the last step that touches and the first that does not
    expect(arc.leaveX).toBeCloseTo((arc.points[0]!.x + arc.points[1]!.x) / 2, 6);
  });

  it('places steps by film time, and says so, where they are held unevenly', () => {
    const { massMm, filmTimeS, flight } = jump();
    for (let s = 7; s < filmTimeS.length; s++) filmTimeS[s]! += STEP_S;
    const held = flightArc({ flight, massMm, filmTimeS, gravityMmS2: G, ...SIZE });
    expect(held.wordsX).toBe('step, spaced by film time');
    const [, , a, b, c] = held.points;
    expect(c!.x - b!.x).toBeCloseTo(2 * (b!.x - a!.x), 6);
  });

  it('leaves out what is not known and never says NaN', () => {
    const { massMm, filmTimeS, flight } = jump();
    massMm[5 * 3 + 1] = Number.NaN;
    const gap = flightArc({ flight, massMm, filmTimeS, gravityMmS2: G, ...SIZE });
    expect(gap.points).toHaveLength(6);
    expect(gap.own + gap.fall).not.toContain('NaN');
  });

  it('thins its ticks where there are many steps', () => {
    const count = 80;
    const filmTimeS = Float64Array.from({ length: count }, (_, s) => s / 24);
    const long = flightArc({ flight: { ...jump().flight, fromStep: 1, toStep: count - 2, parabolaMm: new Float64Array(count - 2) }, massMm: new Float64Array(count * 3), filmTimeS, gravityMmS2: G, ...SIZE });
    for (let k = 1; k < long.ticksX.length; k++) expect(long.ticksX[k]!.x - long.ticksX[k - 1]!.x).toBeGreaterThanOrEqual(25);
  });
});

it('the flight that is shown is the one the playhead is in or nearest to', () => {
  const { flight } = jump();
  const flights = [flight, { ...flight, fromStep: 20, toStep: 24 }];
  expect([0, 6, 12, 16, 22, 90].map((step) => nearestFlight(flights, step))).toEqual([0, 0, 0, 1, 1, 1]);
  expect(nearestFlight([], 3)).toBe(-1);
});
