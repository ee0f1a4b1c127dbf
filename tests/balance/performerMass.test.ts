/** The performer's centre of mass from landmarks, against the worked examples that have the anatomical points themselves (data/README.md). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { massAt, performerMass } from '../../src/balance/performerMass.ts';
import type { Point3 } from '../../src/balance/massTables.ts';
import type { MassTable } from '../../src/balance/poiseSettings.ts';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';

interface Example { readonly name: string; readonly points: Record<string, Point3>; readonly table: string; readonly com: Point3 }
const { com_examples: examples } = JSON.parse(readFileSync(new URL('data/balance.json', import.meta.url), 'utf8')) as { com_examples: readonly Example[] };
const TABLE: Readonly<Record<string, MassTable>> = { de_leva_1996_male: 'de Leva, male', de_leva_1996_female: 'de Leva, female', winter_dempster: 'Winter' };
const POINT = { Shoulder: 'shoulder', Elbow: 'elbow', Wrist: 'wrist', Index: 'knuckle2', Hip: 'hip', Knee: 'knee', Ankle: 'ankle', Heel: 'heel', FootIndex: 'toe_tip' } as const;

/** What the fit would give for that body; two frames, the second with nobody. */
function bodyOf(points: Example['points'], rootM: Point3 = [0, 0, 0]): FittedBody {
  const pointsM = new Float64Array(2 * LANDMARK_COUNT * 3);
  const put = (name: LandmarkName, point: Point3): void => pointsM.set(point.map((v, c) => v - rootM[c]!), LANDMARK[name] * 3);
  for (const side of ['left', 'right'] as const) {
    for (const [landmark, point] of Object.entries(POINT)) put(`${side}${landmark}` as LandmarkName, points[`${side[0]!}_${point}`]!);
    const [x, y, z] = points.ear!;
    put(`${side}Ear`, [x, y, z + (side === 'right' ? 0.07 : -0.07)]);
  }
  return { timesS: Float64Array.of(0, 1), known: Uint8Array.of(1, 0), pointsM, rootM: Float64Array.of(...rootM, 0, 0, 0) } as unknown as FittedBody;
}

describe('the performer’s centre of mass', () => {
  // vertex and cervicale are put by proportion, the metatarsal half-way to the toes: a millimetre of difference is theirs
  it.each(examples)('$name, within a millimetre', ({ points, table, com }) => {
    const { massM } = performerMass(bodyOf(points, [0.3, 0.9, -0.2]), TABLE[table]!, false);
    com.forEach((value, c) => expect(Math.abs(massM[c]! - value)).toBeLessThan(1e-3));
    expect([...massM.subarray(3)].every(Number.isNaN)).toBe(true);
  });

  it('a mirror turns it to the other side', () => {
    const { points } = examples.find(({ name }) => !name.startsWith('T_pose') && !name.startsWith('N_pose'))!;
    const lifted = { ...points, r_elbow: [0.1, 1.4, 0.4] as const, r_wrist: [0.2, 1.4, 0.6] as const };
    const [plain, mirrored] = [false, true].map((mirror) => performerMass(bodyOf(lifted), 'Winter', mirror).massM);
    expect(mirrored![2]).toBeCloseTo(-plain![2]!, 12);
    expect(plain![2]!).toBeGreaterThan(0.003);
  });

  it('between frames it lies on the line between them, and is not known beside a frame with nobody', () => {
    const path = { timesS: Float64Array.of(0, 1, 2), massM: Float64Array.of(0, 1, 0, 2, 3, 4, Number.NaN, Number.NaN, Number.NaN) };
    expect([...massAt(path, Float64Array.of(-1, 0.25, 1)).slice(0, 9)]).toEqual([0, 1, 0, 0.5, 1.5, 1, 2, 3, 4]);
    expect([...massAt(path, Float64Array.of(1.5))].every(Number.isNaN)).toBe(true);
  });
});
