/**
 * Readouts: the angles that people speak in, read off the performer's joint rotations. The core never calculates with them.
 *
 * Every readout is a pure function of one moment's rotations. Left and right read alike: a left joint is mirrored first
 * (z → -z), as Wu et al. 2005 (J. Biomech. 38:981-992) advise, so that "inward" and "away from the body" mean the same on both.
 */
import type { JointName } from '../joints.ts';
import type { Quat } from '../../numeric/quaternion.ts';

/** Rotation of each joint at one moment, child relative to parent, w, x, y, z. */
export type RotationOf = (joint: JointName) => Quat;

/** One value of a readout. */
export interface ReadoutValue {
  readonly rad: number;
  /** The value stands in a zone in which it can't be told well, whatever the footage shows. */
  readonly singular: boolean;
}

export type ReadoutSource = 'measured' | 'shared' | 'inferred';

export interface Readout {
  /** Stable name for files, e.g. `leftShoulder.elevation`. */
  readonly id: string;
  /** The joint that it is shown with, and whose error and doubts it has. */
  readonly joint: JointName;
  /** What a person calls it, e.g. "elevation". */
  readonly label: string;
  /** What a positive value means, e.g. "away from the trunk". */
  readonly positive: string;
  /** Where it can't be told: words, or `null` where it always can. */
  readonly zone: string | null;
  /**
   * `measured`: landmarks show it. `shared`: one measured turn parted over joints by a rule. `inferred`: not seen; what
   * people's bodies usually do.
   */
  readonly from: ReadoutSource;
  /** A turn of a limb about its own bone: its error is the joint's turnErrorDeg, not its errorDeg (docs/errors.md). */
  readonly isTurn: boolean;
  /** Published convention followed, or "ours". */
  readonly source: string;
  readonly read: (rotationOf: RotationOf) => ReadoutValue;
}

/** The turn seen in a mirror whose plane is x-y (z → -z): vectors along the turn's axis change sign in x and y. */
export function mirrored(q: Quat): Quat {
  return [q[0], -q[1], -q[2], q[3]];
}

export const SIDES = ['left', 'right'] as const;
export type Side = (typeof SIDES)[number];

/** The turn as the right side of the body would make it. */
export function asRight(side: Side, q: Quat): Quat {
  return side === 'right' ? q : mirrored(q);
}
