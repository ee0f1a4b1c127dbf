/**
 * The shoulder girdle, which the landmarks don't show: inferred from how far the arm is raised.
 *
 * In people the collar bone rises with the arm (the scapulohumeral rhythm: Inman, Saunders & Abbott 1944, J. Bone Joint
 * Surg. 26:1-30; citation from memory). The share and the angle from which it counts are those that our own drawn figure
 * moves by, so our clips can't speak for them; people differ, and a shrug is not seen at all.
 */
import { fromAxisAngle, multiply, conjugate, rotate, type Quat } from '../../numeric/quaternion.ts';
import { SIDES, mirrored, type Readout, type RotationOf, type Side } from './readout.ts';
import { humerus } from './arms.ts';

/** Part of the arm's elevation above {@link GIRDLE_FROM_RAD} that the collar bone takes. */
export const GIRDLE_SHARE = 0.22;
export const GIRDLE_FROM_RAD = (35 * Math.PI) / 180;
/** The corner at which it begins is rounded over about this, so that it doesn't start with a jerk. */
const ROUNDED_RAD = (5 * Math.PI) / 180;

/** How far the collar bone is lifted for an arm raised so far, radians; rises smoothly from nearly 0. */
export function inferredGirdleRad(elevationRad: number): number {
  const over = elevationRad - GIRDLE_FROM_RAD;
  return (GIRDLE_SHARE * (over + Math.sqrt(over * over + ROUNDED_RAD * ROUNDED_RAD))) / 2;
}

/** The upper arm against the chest parted over collar bone and shoulder: their product is the whole turn, exactly. */
export function shareGirdle(side: Side, upperArm: Quat): { readonly clavicle: Quat; readonly shoulder: Quat } {
  const asRightArm = side === 'right' ? upperArm : mirrored(upperArm);
  const down = rotate(asRightArm, [0, -1, 0]);
  const lift = fromAxisAngle([1, 0, 0], -inferredGirdleRad(Math.atan2(Math.hypot(down[0], down[2]), -down[1])));
  const clavicle = side === 'right' ? lift : mirrored(lift);
  return { clavicle, shoulder: multiply(conjugate(clavicle), upperArm) };
}

export const GIRDLE_READOUTS: readonly Readout[] = SIDES.map((side): Readout => ({
  id: `${side}Clavicle.elevation`, joint: `${side}Clavicle`, label: 'elevation (inferred)', positive: 'shoulder up', zone: null,
  from: 'inferred', isTurn: false, source: 'Inman et al. 1944; amounts ours',
  read: (rotationOf: RotationOf) => {
    const down = rotate(humerus(side, rotationOf), [0, -1, 0]);
    return { rad: inferredGirdleRad(Math.atan2(Math.hypot(down[0], down[2]), -down[1])), singular: false };
  },
}));
