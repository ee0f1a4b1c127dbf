/**
 * Readouts of the leg: hip, knee and ankle as Z-X-Y (Grood & Suntay 1983, J. Biomech. Eng. 105:136-144; Wu et al. 2002,
 * J. Biomech. 35:543-548). Shares of the knee other than flexion, and the tilt of the foot onto its edge, aren't
 * observable with these landmarks and are not read out.
 */
import { toEuler } from '../../numeric/euler.ts';
import { twistAngle } from '../../numeric/quaternion.ts';
import { asRight, SIDES, type Readout, type RotationOf, type Side } from './readout.ts';
import { swingReadouts } from './swing.ts';

const WU_2002 = 'Wu et al. 2002';

function hip(side: Side): Readout[] {
  const joint = `${side}Hip` as const;
  const read = (index: 0 | 1 | 2) => (rotationOf: RotationOf) => {
    const { angles, singular } = toEuler(asRight(side, rotationOf(joint)), 'ZXY');
    return { rad: angles[index], singular: singular && index !== 1 };
  };
  const zone = 'thigh straight out to the side';
  return [
    {
      id: `${joint}.flexion`, joint, label: 'flexion', positive: 'thigh forward', zone, from: 'measured', isTurn: false, source: WU_2002,
      read: read(0),
    },
    {
      id: `${joint}.adduction`, joint, label: 'adduction', positive: 'across the body', zone: null, from: 'measured', isTurn: false,
      source: WU_2002, read: read(1),
    },
    {
      id: `${joint}.rotation`, joint, label: 'internal rotation', positive: 'kneecap inward', zone, from: 'measured', isTurn: true,
      source: WU_2002, read: read(2),
    },
    ...swingReadouts(joint, side, (rotationOf) => asRight(side, rotationOf(joint))),
  ];
}

function knee(side: Side): Readout {
  const joint = `${side}Knee` as const;
  return {
    id: `${joint}.flexion`, joint, label: 'flexion', positive: 'bent', zone: null, from: 'measured', isTurn: false,
    source: 'Grood & Suntay 1983',
    // the shank swings back: a bent knee is a negative turn about Z
    read: (rotationOf) => ({ rad: -twistAngle(rotationOf(joint), 3), singular: false }),
  };
}

function ankle(side: Side): Readout[] {
  const joint = `${side}Ankle` as const;
  const read = (index: 0 | 2) => (rotationOf: RotationOf) => {
    const { angles, singular } = toEuler(asRight(side, rotationOf(joint)), 'ZXY');
    return { rad: angles[index], singular };
  };
  return [
    {
      id: `${joint}.dorsiflexion`, joint, label: 'dorsiflexion', positive: 'toes up', zone: null, from: 'measured', isTurn: false,
      source: WU_2002, read: read(0),
    },
    {
      id: `${joint}.rotation`, joint, label: 'internal rotation', positive: 'toes inward', zone: null, from: 'measured', isTurn: false,
      source: WU_2002, read: read(2),
    },
  ];
}

export const LEG_READOUTS: readonly Readout[] = SIDES.flatMap((side) => [...hip(side), knee(side), ...ankle(side)]);
