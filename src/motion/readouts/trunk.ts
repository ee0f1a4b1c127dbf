/**
 * Readouts of trunk and head.
 *
 * - Pelvis against the stage: turn, lean to the side, lean forward, in the order Y-X-Z, so that a performer who turns
 *   round keeps readable leans (Baker 2001, Human Movement Science 20:561-566; citation from memory).
 * - Spine, chest against pelvis as one turn: bend, side-bend, twist, Z-X-Y (Wu et al. 2002, signs ours). Where along the
 *   spine it bends is not observable; `shareTurn` parts it over as many joints as a puppet has.
 * - Head against chest as one turn: turn, tilt, nod, Y-X-Z (ours: a head that looks over the shoulder still nods).
 */
import { toEuler, type EulerOrder } from '../../numeric/euler.ts';
import { multiply, type Quat } from '../../numeric/quaternion.ts';
import type { JointName } from '../joints.ts';
import type { Readout, ReadoutSource, RotationOf } from './readout.ts';

/** One angle of a turn read in some order. */
interface Part {
  readonly name: string;
  readonly label: string;
  readonly index: 0 | 1 | 2;
  readonly sign: 1 | -1;
  readonly positive: string;
}

function partsOf(
  id: string, joint: JointName, turn: (rotationOf: RotationOf) => Quat, order: EulerOrder, parts: readonly Part[], zone: string,
  from: ReadoutSource, source: string,
): Readout[] {
  return parts.map(({ name, label, index, sign, positive }) => ({
    id: `${id}.${name}`, joint, label, positive, zone: index === 1 ? null : zone, from, isTurn: false, source,
    read: (rotationOf) => {
      const { angles, singular } = toEuler(turn(rotationOf), order);
      return { rad: sign * angles[index] + 0, singular: singular && index !== 1 };
    },
  }));
}

/** Chest against pelvis. */
export const spineTurn = (rotationOf: RotationOf): Quat => multiply(rotationOf('spine'), rotationOf('chest'));
/** Head against chest. */
export const headTurn = (rotationOf: RotationOf): Quat => multiply(rotationOf('neck'), rotationOf('head'));

const LEANS: readonly Part[] = [
  { name: 'turn', label: 'turn', index: 0, sign: 1, positive: 'to the performer’s left' },
  { name: 'side', label: 'lean to the side', index: 1, sign: 1, positive: 'to the performer’s right' },
  { name: 'forward', label: 'lean forward', index: 2, sign: -1, positive: 'forward' },
];
const BENDS: readonly Part[] = [
  { name: 'bend', label: 'bend', index: 0, sign: -1, positive: 'forward' },
  { name: 'side', label: 'side-bend', index: 1, sign: 1, positive: 'to the performer’s right' },
  { name: 'twist', label: 'twist', index: 2, sign: 1, positive: 'to the performer’s left' },
];
const NODS: readonly Part[] = [
  { name: 'turn', label: 'turn', index: 0, sign: 1, positive: 'to the performer’s left' },
  { name: 'tilt', label: 'tilt', index: 1, sign: 1, positive: 'ear to the right shoulder' },
  { name: 'nod', label: 'nod', index: 2, sign: 1, positive: 'face up' },
];

export const TRUNK_READOUTS: readonly Readout[] = [
  ...partsOf('pelvis', 'pelvis', (of) => of('pelvis'), 'YXZ', LEANS, 'trunk lying sideways', 'measured', 'Baker 2001'),
  ...partsOf('spine', 'chest', spineTurn, 'ZXY', BENDS, 'bent a right angle to the side', 'measured', 'Wu et al. 2002, signs ours'),
  ...partsOf('head', 'head', headTurn, 'YXZ', NODS, 'ear on the shoulder', 'measured', 'ours'),
];
