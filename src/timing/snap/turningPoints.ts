/** The extremes of joints: where a bend is greatest or least. */
import { JOINT, JOINT_COUNT, PERFORMER_KIND, type JointName } from '../../motion/joints.ts';
import { STATE_MISSING, type Motion } from '../../motion/motion.ts';

/** Container times, rising. */
export interface TurningPoint {
  readonly joint: JointName;
  readonly sourceS: number;
  /** Bend of a hinge, size of the turn from rest of a ball, degrees. */
  readonly angleDeg: number;
}

/** A turn back of less than this is no extreme, degrees. Our choice. */
const LEAST_BACK_DEG = 4;
const DEG_PER_RAD = 180 / Math.PI;

/**
 * Frames at which the angle of a joint turns back by LEAST_BACK_DEG or more on both sides. The curve between frames never passes its
 * frames (`sampleMotion.ts`), so an extreme of the curve is an extreme of the frames; of a flat one the middle.
 */
export function turningPoints(motion: Motion, joint: JointName): readonly TurningPoint[] {
  const { timesS, rotations, state } = motion;
  const j = JOINT[joint];
  const hinge = PERFORMER_KIND[joint] === 'hinge';
  const out: TurningPoint[] = [];
  let run: number[] = [];
  let angles: number[] = [];
  const finish = (): void => {
    for (const k of extremesOf(angles)) out.push({ joint, sourceS: timesS[run[k]!]!, angleDeg: angles[k]! });
    run = [];
    angles = [];
  };
  for (let t = 0; t < timesS.length; t++) {
    if (state[t * JOINT_COUNT + j] === STATE_MISSING) {
      finish();
      continue;
    }
    const at = (t * JOINT_COUNT + j) * 4;
    const w = Math.abs(rotations[at]!);
    const sine = Math.hypot(rotations[at + 1]!, rotations[at + 2]!, rotations[at + 3]!);
    run.push(t);
    angles.push((hinge ? 2 * Math.atan2(rotations[at + 3]! * Math.sign(rotations[at]! || 1), w) : 2 * Math.atan2(sine, w)) * DEG_PER_RAD);
  }
  finish();
  return out;
}

/** Indices of the turns of a curve, by a zigzag with a threshold; its ends are none. */
export function extremesOf(values: readonly number[], backBy = LEAST_BACK_DEG): readonly number[] {
  const out: number[] = [];
  if (values.length < 3) return out;
  let high = 0;
  let low = 0;
  /** Whether it has been rising (1) or falling (-1) since the last extreme; 0 before the first clear way. */
  let way = 0;
  for (let k = 1; k < values.length; k++) {
    const v = values[k]!;
    if (way >= 0 && v > values[high]!) high = k;
    if (way <= 0 && v < values[low]!) low = k;
    if (way >= 0 && values[high]! - v >= backBy) {
      if (way > 0) out.push(high);
      way = -1;
      low = k;
    } else if (way <= 0 && v - values[low]! >= backBy) {
      if (way < 0) out.push(low);
      way = 1;
      high = k;
    }
  }
  return out;
}
