/**
 * Published shares of a person's mass, and where along a segment they lie.
 *
 * - de Leva 1996, J Biomech 29(9):1223-1230, table 4: head vertex to cervicale, trunk mid-shoulder to mid-hip, hand wrist to
 *   fingertip, shank knee to ankle centre, foot heel to toe tip. The female column adds up to 99.99 %; all sums are divided out.
 * - Winter, Biomechanics and Motor Control of Human Movement, table 4.1 (after Dempster 1955): head and neck at the ear canal,
 *   trunk greater trochanter to glenohumeral (hip and shoulder centres here), hand wrist to second knuckle, foot ankle to the
 *   head of the second metatarsal.
 *
 * The fractions belong to their ends: a row is never used between others.
 */
import type { MassTable } from './poiseSettings.ts';

/** Points of a body that segments end at. */
export const BODY_POINTS = [
  'vertex', 'cervicale', 'earCanal', 'midShoulder', 'midHip', 'shoulder', 'elbow', 'wrist', 'knuckle', 'fingertip', 'hip', 'knee', 'ankle', 'heel', 'toeTip', 'metatarsal',
] as const;
export type BodyPoint = (typeof BODY_POINTS)[number];

/** One side of a pair counts once; `paired` segments are there twice. */
export interface MassSegment {
  readonly name: string;
  readonly share: number;
  readonly from: BodyPoint;
  readonly to: BodyPoint;
  /** Of its centre from `from` (0) to `to` (1). */
  readonly at: number;
  readonly paired: boolean;
}

function table(rows: readonly (readonly [name: string, share: number, from: BodyPoint, to: BodyPoint, at: number])[]): readonly MassSegment[] {
  return rows.map(([name, share, from, to, at]) => ({ name, share, from, to, at, paired: name !== 'head' && name !== 'trunk' }));
}

function deLeva(shares: readonly (readonly [share: number, at: number])[]): readonly MassSegment[] {
  const ends: readonly (readonly [string, BodyPoint, BodyPoint])[] = [
    ['head', 'vertex', 'cervicale'], ['trunk', 'midShoulder', 'midHip'], ['upper arm', 'shoulder', 'elbow'], ['forearm', 'elbow', 'wrist'],
    ['hand', 'wrist', 'fingertip'], ['thigh', 'hip', 'knee'], ['shank', 'knee', 'ankle'], ['foot', 'heel', 'toeTip'],
  ];
  return table(ends.map(([name, from, to], k) => [name, shares[k]![0], from, to, shares[k]![1]] as const));
}

export const MASS_SEGMENTS: Readonly<Record<MassTable, readonly MassSegment[]>> = {
  'de Leva, male': deLeva([
    [0.0694, 0.5002], [0.4346, 0.431], [0.0271, 0.5772], [0.0162, 0.4574], [0.0061, 0.3624], [0.1416, 0.4095], [0.0433, 0.4395], [0.0137, 0.4415],
  ]),
  'de Leva, female': deLeva([
    [0.0668, 0.4841], [0.4257, 0.3782], [0.0255, 0.5754], [0.0138, 0.4559], [0.0056, 0.3427], [0.1478, 0.3612], [0.0481, 0.4352], [0.0129, 0.4014],
  ]),
  Winter: table([
    ['head', 0.081, 'cervicale', 'earCanal', 1], ['trunk', 0.497, 'midHip', 'midShoulder', 0.5], ['upper arm', 0.028, 'shoulder', 'elbow', 0.436],
    ['forearm', 0.016, 'elbow', 'wrist', 0.43], ['hand', 0.006, 'wrist', 'knuckle', 0.506], ['thigh', 0.1, 'hip', 'knee', 0.433],
    ['shank', 0.0465, 'knee', 'ankle', 0.433], ['foot', 0.0145, 'ankle', 'metatarsal', 0.5],
  ]),
};

export type Point3 = readonly [number, number, number];

/**
 * Centre of mass of a body.
 *
 * @param pointOf place of a point on a side (points of the middle are asked for with either)
 */
export function bodyMassCentre(tableName: MassTable, pointOf: (point: BodyPoint, side: 'left' | 'right') => Point3): Point3 {
  let sum = 0;
  const out: [number, number, number] = [0, 0, 0];
  for (const { share, from, to, at, paired } of MASS_SEGMENTS[tableName]) {
    for (const side of paired ? (['left', 'right'] as const) : (['left'] as const)) {
      const a = pointOf(from, side);
      const b = pointOf(to, side);
      for (let c = 0; c < 3; c++) out[c]! += share * (a[c]! + at * (b[c]! - a[c]!));
      sum += share;
    }
  }
  return [out[0] / sum, out[1] / sum, out[2] / sum];
}
