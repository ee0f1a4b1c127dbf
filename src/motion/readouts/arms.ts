/**
 * Readouts of the arm.
 *
 * Shoulder: humerus against thorax, Y-X-Y (Wu et al. 2005, §2.4.7): plane of elevation (0 out to the side, 90 forward),
 * elevation (0 hanging; ISB writes it negative, we show its size), internal rotation. Hanging and overhead are singular:
 * there plane and rotation can't be told apart.
 *
 * Forearm and wrist: the landmarks show the hand against the forearm as one turn. ISB puts its part about the forearm's
 * long axis to the forearm (pronation, 0 with the palm forward, 90 with the palm to the thigh as in our rest pose) and
 * the rest to the wrist (flexion, ulnar deviation). So the turn is read as Y-Z-X, which is ISB's elbow Y followed by its
 * wrist Z-X with no turn of the hand about itself (Wu et al. 2005, §3.4.1, §4.4.1).
 */
import { toEuler } from '../../numeric/euler.ts';
import { fromAxisAngle, multiply, twistAngle, type Quat } from '../../numeric/quaternion.ts';
import { asRight, SIDES, type Readout, type RotationOf, type Side } from './readout.ts';
import { swingReadouts } from './swing.ts';

const WU_2005 = 'Wu et al. 2005';
/** From our rest pose (palm to the thigh) to ISB's axes of the hand (palm forward when the forearm is not pronated). */
const PALM = fromAxisAngle([0, 1, 0], Math.PI / 2);

/** Upper arm against chest, as a right arm: what the clavicle may take is part of it. */
export function humerus(side: Side, rotationOf: RotationOf): Quat {
  return asRight(side, multiply(rotationOf(`${side}Clavicle`), rotationOf(`${side}Shoulder`)));
}

function shoulder(side: Side): Readout[] {
  const joint = `${side}Shoulder` as const;
  const read = (index: 0 | 1 | 2, sign: 1 | -1) => (rotationOf: RotationOf) => {
    const { angles, singular } = toEuler(humerus(side, rotationOf), 'YXY', 'lower');
    return { rad: sign * angles[index], singular: singular && index !== 1 };
  };
  const zone = 'arm hanging along the trunk or straight overhead';
  return [
    {
      id: `${joint}.elevation`, joint, label: 'elevation', positive: 'away from the trunk', zone: null,
      from: 'measured', isTurn: false, source: `${WU_2005}, sign reversed`, read: read(1, -1),
    },
    {
      id: `${joint}.plane`, joint, label: 'plane of elevation', positive: 'forward; 0 is out to the side', zone,
      from: 'measured', isTurn: false, source: WU_2005, read: read(0, 1),
    },
    {
      id: `${joint}.rotation`, joint, label: 'internal rotation', positive: 'crease of the elbow inward', zone,
      from: 'measured', isTurn: true, source: WU_2005, read: read(2, 1),
    },
    ...swingReadouts(joint, side, (rotationOf) => humerus(side, rotationOf)),
  ];
}

function elbow(side: Side): Readout {
  const joint = `${side}Elbow` as const;
  return {
    id: `${joint}.flexion`, joint, label: 'flexion', positive: 'bent', zone: null, from: 'measured', isTurn: false, source: WU_2005,
    read: (rotationOf) => ({ rad: twistAngle(rotationOf(joint), 3), singular: false }),
  };
}

function hand(side: Side): Readout[] {
  const joint = `${side}Wrist` as const;
  const read = (index: 0 | 1 | 2) => (rotationOf: RotationOf) => {
    const { angles, singular } = toEuler(multiply(asRight(side, rotationOf(joint)), PALM), 'YZX');
    return { rad: angles[index], singular: singular && index !== 1 };
  };
  const zone = 'wrist bent by nearly a right angle';
  return [
    {
      id: `${side}Forearm.pronation`, joint, label: 'forearm roll (pronation)', positive: 'palm turned back; 0 is palm forward on a hanging arm',
      zone, from: 'measured', isTurn: true, source: WU_2005, read: read(0),
    },
    {
      id: `${joint}.flexion`, joint, label: 'flexion', positive: 'toward the palm', zone: null, from: 'measured', isTurn: false,
      source: WU_2005, read: read(1),
    },
    {
      id: `${joint}.deviation`, joint, label: 'deviation', positive: 'toward the little finger', zone, from: 'measured', isTurn: false,
      source: WU_2005, read: read(2),
    },
  ];
}

export const ARM_READOUTS: readonly Readout[] = SIDES.flatMap((side) => [...shoulder(side), elbow(side), ...hand(side)]);
