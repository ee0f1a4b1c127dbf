/**
 * A ball joint as direction and twist: how far the bone swings from hanging, toward where, and how it is turned about
 * itself. Three numbers that a hand at an armature can set one after the other.
 */
import type { JointName } from '../joints.ts';
import { rotate, type Quat } from '../../numeric/quaternion.ts';
import { swingTwist } from '../../numeric/swingTwist.ts';
import type { Readout, RotationOf, Side } from './readout.ts';

/** A swing of less than this has no direction to speak of: 1° of error turns it by 1/sin 10° = 6°. Our choice. */
const SMALL_SWING_RAD = (10 * Math.PI) / 180;

/**
 * @param turn the joint's turn as the right side would make it
 * @returns swing (size), its heading (0 out to the side, 90 forward, 180 across the body, -90 back) and twist
 */
export function swingReadouts(joint: JointName, side: Side | null, turn: (rotationOf: RotationOf) => Quat): Readout[] {
  const about = side === null ? 'to the performer’s left' : 'front of the bone turned inward';
  const parts = (rotationOf: RotationOf): ReturnType<typeof swingTwist> => swingTwist(turn(rotationOf), [0, 1, 0]);
  const common = { joint, from: 'measured', source: 'ours' } as const;
  return [
    {
      ...common, id: `${joint}.swing`, label: 'swing', positive: 'away from hanging; never negative', zone: null, isTurn: false,
      read: (rotationOf) => ({ rad: parts(rotationOf).swingRad, singular: false }),
    },
    {
      ...common, id: `${joint}.heading`, label: 'swing toward', positive: '0 is out to the side, 90 forward, −90 back', isTurn: false,
      zone: 'swing under 10° or over 170°',
      read: (rotationOf) => {
        const { swing, swingRad } = parts(rotationOf);
        const down = rotate(swing, [0, -1, 0]);
        const flat = Math.hypot(down[0], down[2]);
        return {
          rad: flat < 1e-12 ? 0 : Math.atan2(down[0], down[2]),
          singular: swingRad < SMALL_SWING_RAD || swingRad > Math.PI - SMALL_SWING_RAD,
        };
      },
    },
    {
      ...common, id: `${joint}.twist`, label: 'twist', positive: about, zone: 'swing over 170°', isTurn: true,
      read: (rotationOf) => {
        const { twistRad, singular } = parts(rotationOf);
        return { rad: twistRad, singular };
      },
    },
  ];
}
