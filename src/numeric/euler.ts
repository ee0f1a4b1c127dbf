/**
 * Three angles about axes that turn along (intrinsic), for readouts: people and other programs speak in them, the core
 * never calculates with them.
 *
 * `ZXY` means: first about the proximal segment's Z, then about the X that this has turned, last about the distal
 * segment's own Y, as ISB writes its joint angles (Grood & Suntay 1983, J. Biomech. Eng. 105:136-144; Wu et al. 2002,
 * J. Biomech. 35:543-548, hip, knee, ankle: Z-X-Y; Wu et al. 2005, J. Biomech. 38:981-992, shoulder: Y-X-Y, elbow and
 * wrist: Z-X-Y). As quaternions: first · middle · last.
 *
 * From the half-angle sums of the quaternion, one formula for all twelve orders, without matrices and without a bare acos
 * (Bernardes & Viollet 2022, PLoS ONE 17(11):e0276302; citation from memory).
 */
import { fromAxisAngle, multiply, type Quat } from './quaternion.ts';
import type { Vec3 } from './vector3.ts';

/** Cardan orders (three different axes), then proper Euler orders (first and last axis alike). */
export type EulerOrder =
  | 'XYZ' | 'XZY' | 'YXZ' | 'YZX' | 'ZXY' | 'ZYX'
  | 'XYX' | 'XZX' | 'YXY' | 'YZY' | 'ZXZ' | 'ZYZ';

/**
 * Every orientation is reached by two triples. `upper` is the one whose middle angle lies in -90..90° (Cardan) or
 * 0..180° (proper); `lower` the one with 90..270° or -180..0°. ISB's elevation of the shoulder is the lower one.
 */
export type EulerBranch = 'upper' | 'lower';

export interface EulerAngles {
  /**
   * First, middle and last angle, radians. First and last in -π..π. Where first and last axis coincide (to the last
   * digits) only their sum or difference is defined; then it stands in the first and the last is 0.
   */
  readonly angles: Vec3;
  /** The middle angle lies within the zone in which first and last can't be told apart well. */
  readonly singular: boolean;
}

/**
 * Half width of the singular zone, radians. 10° from the singularity an error of 1° in the orientation may become
 * 1/sin 10° = 6° in the first and the last angle. Our choice.
 */
export const SINGULAR_ZONE_RAD = (10 * Math.PI) / 180;

/** Distance from the singularity below which rounding alone decides about first and last. */
const COINCIDE_RAD = 1e-7;

const AXIS = { X: 1, Y: 2, Z: 3 } as const;
const UNIT: Readonly<Record<1 | 2 | 3, Vec3>> = { 1: [1, 0, 0], 2: [0, 1, 0], 3: [0, 0, 1] };

function axesOf(order: EulerOrder): readonly [1 | 2 | 3, 1 | 2 | 3, 1 | 2 | 3] {
  return [AXIS[order[0] as 'X'], AXIS[order[1] as 'X'], AXIS[order[2] as 'X']];
}

/** The turn of three angles (radians) about axes that turn along. */
export function fromEuler(order: EulerOrder, angles: Vec3): Quat {
  const [i, j, k] = axesOf(order);
  return multiply(
    multiply(fromAxisAngle(UNIT[i], angles[0]), fromAxisAngle(UNIT[j], angles[1])), fromAxisAngle(UNIT[k], angles[2]),
  );
}

/**
 * The three angles of a unit quaternion (child relative to parent). Its sign does not matter.
 *
 * @param zoneRad half width of the zone told as singular; {@link SINGULAR_ZONE_RAD} unless told
 */
export function toEuler(
  q: Quat, order: EulerOrder, branch: EulerBranch = 'upper', zoneRad: number = SINGULAR_ZONE_RAD,
): EulerAngles {
  // worked out for axes that stand still, which is the same triple read backward
  const [last, j, first] = axesOf(order);
  const i = first;
  const proper = i === last;
  const k = proper ? (6 - i - j) as 1 | 2 | 3 : last;
  const parity = ((i - j) * (j - k) * (k - i)) / 2;
  const [w, qi, qj, qk] = [q[0], q[i], q[j], q[k] * parity];
  const [a, b, c, d] = proper ? [w, qi, qj, qk] : [w - qj, qi + qk, qj + w, qk - qi];

  const nearness = Math.sqrt(a * a + b * b);
  const farness = Math.sqrt(c * c + d * d);
  /** 0..π; singular at both ends. */
  const opening = 2 * Math.atan2(farness, nearness);
  const half = opening < Math.PI - COINCIDE_RAD ? Math.atan2(b, a) : 0;
  const other = opening > COINCIDE_RAD ? Math.atan2(d, c) : 0;
  let inner = half - other;
  let outer = half + other;
  if (opening <= COINCIDE_RAD) [inner, outer] = [0, 2 * half];
  else if (opening >= Math.PI - COINCIDE_RAD) [inner, outer] = [0, 2 * other];
  if (!proper) outer *= parity;
  let middle = proper ? opening : opening - Math.PI / 2;
  const fromEnd = Math.min(opening, Math.PI - opening);
  if (branch === 'lower') {
    middle = proper ? -middle : Math.PI - middle;
    if (fromEnd > COINCIDE_RAD) {
      inner += Math.PI;
      outer += Math.PI;
    }
  }
  return { angles: [withinHalfTurn(outer), middle, withinHalfTurn(inner)], singular: fromEnd < zoneRad };
}

/** Up to whole turns, in -π..π. + 0 turns a minus zero into a plain one. */
function withinHalfTurn(angle: number): number {
  return angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI)) + 0;
}
