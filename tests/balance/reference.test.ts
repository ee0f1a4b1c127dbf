/** Mass centres, margins and falls against published tables, formulas and another library's numbers (data/README.md). */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { extrapolated, pendulumRate } from '../../src/balance/extrapolated.ts';
import { fallTimeS, flightsOf } from '../../src/balance/flights.ts';
import type { Flight } from '../../src/balance/balance.ts';
import { areaOf, hullOf, marginOf } from '../../src/balance/hull.ts';
import { bodyMassCentre, MASS_SEGMENTS, type BodyPoint, type Point3 } from '../../src/balance/massTables.ts';
import { MASS_TABLES, type MassTable } from '../../src/balance/poiseSettings.ts';

interface Data {
  readonly com_examples: readonly { name: string; points: Record<string, Point3>; table: string; com: Point3 }[];
  readonly xcom: readonly { name: string; inputs: { x: number; v: number; l: number; front_edge: number }; outputs: { omega0: number; xcom: number; margin: number } }[];
  readonly base_of_support: readonly { inputs: { points_x_z: number[][] }; outputs: { hull_ccw_from_min_x: number[][]; area: number; queries?: { point: number[]; signed_margin: number }[] } }[];
  readonly free_fall: readonly { h_m: number; t_s: number }[];
}
const data = JSON.parse(readFileSync(new URL('data/balance.json', import.meta.url), 'utf8')) as Data;

const TABLE: Readonly<Record<string, MassTable>> = {
  de_leva_1996_male: 'de Leva, male', de_leva_1996_female: 'de Leva, female', winter_dempster: 'Winter',
};
const POINT: Readonly<Record<BodyPoint, string>> = {
  vertex: 'vertex', cervicale: 'cervicale', earCanal: 'ear', midShoulder: 'mid_shoulder', midHip: 'mid_hip', shoulder: '_shoulder', elbow: '_elbow', wrist: '_wrist',
  knuckle: '_knuckle2', fingertip: '_fingertip', hip: '_hip', knee: '_knee', ankle: '_ankle', heel: '_heel', toeTip: '_toe_tip', metatarsal: '_mt2',
};

describe('centre of mass', () => {
  it('there are worked examples of all tables', () => {
    expect(new Set(data.com_examples.map(({ table }) => TABLE[table] ?? table))).toEqual(new Set(MASS_TABLES));
    expect(data.com_examples.length).toBeGreaterThanOrEqual(9);
  });

  it.each(data.com_examples)('$name', ({ points, table, com }) => {
    const centre = bodyMassCentre(TABLE[table]!, (point, side) => points[POINT[point].startsWith('_') ? side[0]! + POINT[point] : POINT[point]]!);
    centre.forEach((value, c) => expect(Math.abs(value - com[c]!)).toBeLessThan(1e-9));
  });

  it('shares add up as the tables say: 100 % (men and Winter), 99.99 % (women)', () => {
    const sum = (table: MassTable): number => MASS_SEGMENTS[table].reduce((total, { share, paired }) => total + share * (paired ? 2 : 1), 0);
    expect(sum('de Leva, male')).toBeCloseTo(1, 12);
    expect(sum('de Leva, female')).toBeCloseTo(0.9999, 12);
    expect(sum('Winter')).toBeCloseTo(1, 12);
  });

  it('drops by the sum made by hand when the arms go down from level (de Leva, men)', () => {
    const by = 2 * (0.0271 * 0.5772 * 0.28 + 0.0162 * (0.28 + 0.4574 * 0.26) + 0.0061 * (0.54 + 0.3624 * 0.18));
    const height = (pose: string): number => data.com_examples.find(({ name }) => name.startsWith(pose) && name.endsWith('male') && !name.endsWith('female'))!.com[1];
    expect(height('T_pose') - height('N_pose')).toBeCloseTo(by, 9);
  });
});

describe('base of support', () => {
  it.each(data.base_of_support)('hull, area and margins', ({ inputs, outputs }) => {
    const hull = hullOf(inputs.points_x_z.flat());
    expect([...hull]).toEqual(outputs.hull_ccw_from_min_x.flat());
    expect(areaOf(hull)).toBeCloseTo(outputs.area, 12);
    for (const { point, signed_margin: margin } of outputs.queries ?? []) expect(marginOf(hull, point[0]!, point[1]!).distance).toBeCloseTo(margin, 10);
  });

  it('is what brute force finds: a point is inside when it is on one side of all pairs, and the margin is the least way to the rim', () => {
    const near = fc.integer({ min: -1000, max: 1000 }).map((thousandths) => thousandths / 1000);
    fc.assert(fc.property(fc.array(fc.tuple(near, near), { minLength: 4, maxLength: 14 }), near, near, (points, x, z) => {
      const hull = hullOf(points.flat());
      fc.pre(hull.length >= 6 && areaOf(hull) > 1e-4);
      const corners = Array.from({ length: hull.length / 2 }, (_, k) => [hull[k * 2]!, hull[k * 2 + 1]!] as const);
      for (const [px, pz] of points) expect(marginOf(hull, px, pz).distance).toBeGreaterThan(-1e-9);
      // the winding sum of the angles under which the corners are seen
      let turns = 0;
      let least = Infinity;
      corners.forEach(([ax, az], k) => {
        const [bx, bz] = corners[(k + 1) % corners.length]!;
        turns += Math.atan2((ax - x) * (bz - z) - (az - z) * (bx - x), (ax - x) * (bx - x) + (az - z) * (bz - z));
        for (let i = 0; i <= 2000; i++) least = Math.min(least, Math.hypot(ax + ((bx - ax) * i) / 2000 - x, az + ((bz - az) * i) / 2000 - z));
      });
      const { distance, edgeX, edgeZ, outX, outZ } = marginOf(hull, x, z);
      fc.pre(least > 1e-6);
      expect(distance > 0).toBe(Math.abs(turns) > 3);
      expect(Math.abs(Math.abs(distance) - least)).toBeLessThan(2e-3);
      expect(Math.hypot(outX, outZ)).toBeCloseTo(1, 9);
      if (distance < 0) expect(Math.hypot(edgeX - distance * outX - x, edgeZ - distance * outZ - z)).toBeLessThan(1e-9);
      // going that way from the edge leaves the base
      expect(marginOf(hull, edgeX + outX * 1e-3, edgeZ + outZ * 1e-3).distance).toBeLessThan(1e-6);
    }), { numRuns: 60 });
  });
});

describe('extrapolated centre of mass', () => {
  it.each(data.xcom)('$name', ({ inputs: { x, v, l, front_edge: edge }, outputs }) => {
    const rate = pendulumRate(l);
    expect(rate).toBeCloseTo(outputs.omega0, 9);
    const path = Float64Array.from([-1, 0, 1].flatMap((k) => [x + v * k, 0, 0]));
    const xcom = extrapolated(path, Float64Array.from([0, 1, 2]), rate)[2]!;
    expect(xcom).toBeCloseTo(outputs.xcom, 9);
    const sole = hullOf([-1, -1, edge, -1, edge, 1, -1, 1]);
    expect(marginOf(sole, xcom, 0).distance).toBeCloseTo(outputs.margin, 9);
  });

  it('of an inverted pendulum that falls from rest grows as e to the ω₀·t, as its formula says', () => {
    // x = x0·cosh(ω₀t) (closed form); x + v/ω₀ = x0·(cosh + sinh) = x0·e^(ω₀t)
    const rate = pendulumRate(1);
    const dt = 1e-4;
    const path = Float64Array.from([0.5 - dt, 0.5, 0.5 + dt].flatMap((t) => [0.02 * Math.cosh(rate * t), 0, 0]));
    expect(path[3]).toBeCloseTo(0.049965495443, 11);
    expect(extrapolated(path, Float64Array.from([0, dt, 2 * dt]), rate)[2]!).toBeCloseTo(0.02 * Math.exp(rate * 0.5), 6);
  });
});

describe('free fall', () => {
  it.each(data.free_fall)('$h_m m', ({ h_m: h, t_s: t }) => expect(fallTimeS(h)).toBeCloseTo(t, 12));

  it('a jump at the size that is read is on its parabola and in time; the same twice as slow floats', () => {
    const mmPerM = 280 / 1.7;
    const fps = 24;
    const jump = (slower: number): readonly Flight[] => {
      const rise = 0.2;
      const half = fallTimeS(rise) * slower;
      const steps = Math.ceil((2 * half + 0.4) * fps);
      const at = (s: number): number => s / fps - 0.2 - half;
      const aloft = Uint8Array.from({ length: steps }, (_, s) => (Math.abs(at(s)) < half ? 1 : 0));
      const massMm = Float64Array.from({ length: steps * 3 }, (_, i) => {
        const t = Math.min(1, Math.abs(at(Math.floor(i / 3))) / half);
        return i % 3 === 1 ? 160 + rise * mmPerM * (1 - t * t) : 0;
      });
      return flightsOf({ aloft, grounded: aloft.map((off) => 1 - off), massMm, filmTimeS: Float64Array.from({ length: steps }, (_, s) => s / fps), mmPerM }).flatMap(({ flight, flies }) => (flies ? [flight] : []));
    };
    const [right] = jump(1);
    const [slow] = jump(2);
    expect(right).toMatchObject({ kind: 'jump', reads: 'in time' });
    expect(slow).toMatchObject({ kind: 'jump', reads: 'floats' });
    expect(Math.abs(right!.aloftS - right!.ballisticS)).toBeLessThanOrEqual(1.01 / fps);
    expect(slow!.aloftS / slow!.ballisticS).toBeGreaterThan(1.7);
    expect(right!.offMm).toBeLessThan(1e-6);
    expect(slow!.offMm).toBeGreaterThan(10);
    // a glide along the floor is none, however long nothing is said to touch
    expect(jump(4)).toEqual([]);
  });

  it('a fall of a metre at one to six takes the metre’s 10.84 frames; in its own 4.4 frames it drops (reference values: dynamic scale)', () => {
    const fps = 24;
    const mmPerM = 1000 / 6;
    const fall = (frames: number): Flight => {
      const last = Math.floor(frames);
      const aloft = Uint8Array.from({ length: last + 3 }, (_, s) => (s >= 1 && s <= last ? 1 : 0));
      const path = new Float64Array(aloft.length * 3);
      for (let s = 0; s < aloft.length; s++) path[s * 3 + 1] = 200 - mmPerM * Math.min(1, (s / frames) ** 2);
      return flightsOf({ aloft, grounded: aloft.map((off) => 1 - off), massMm: path, filmTimeS: Float64Array.from(aloft, (_, s) => s / fps), mmPerM })[0]!.flight;
    };
    expect(fallTimeS(1) * fps).toBeCloseTo(10.8366, 4);
    expect(fall(10.8366)).toMatchObject({ kind: 'fall', reads: 'in time' });
    expect(fall(4.424)).toMatchObject({ kind: 'fall', reads: 'drops' });
    expect(fall(10.8366).offMm).toBeLessThan(1e-3);
  });
});
