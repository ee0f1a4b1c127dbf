/** Extremes of a joint's curve as it is drawn: angles at the frames of the take, whatever they were made from. */
import type { JointName } from '../../motion/joints.ts';
import { extremesOf, type TurningPoint } from '../snap/turningPoints.ts';

/** T frames. */
export interface JointCurve {
  /** The performer's joint that it comes from. */
  readonly joint: JointName;
  /** `[T]` container seconds, rising. */
  readonly timesS: ArrayLike<number>;
  /** Degrees at a frame; NaN where it is missing. */
  readonly angleDeg: (frame: number) => number;
}

/** Where the curve turns back, rising in time; as for `turningPoints`, gaps part it. */
export function curveTurns({ joint, timesS, angleDeg }: JointCurve): readonly TurningPoint[] {
  const out: TurningPoint[] = [];
  let from = 0;
  let angles: number[] = [];
  for (let t = 0; t <= timesS.length; t++) {
    const angle = t < timesS.length ? angleDeg(t) : Number.NaN;
    if (!Number.isNaN(angle)) {
      if (angles.length === 0) from = t;
      angles.push(angle);
      continue;
    }
    for (const k of extremesOf(angles)) out.push({ joint, sourceS: timesS[from + k]!, angleDeg: angles[k]! });
    angles = [];
  }
  return out;
}

/** Angle between two frames, straight from one to the other; NaN beside a gap, before the first and after the last frame theirs. */
export function angleAt({ timesS, angleDeg }: JointCurve, sourceS: number): number {
  let low = 0;
  let high = timesS.length - 1;
  if (high < 0) return Number.NaN;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (timesS[middle]! <= sourceS) low = middle;
    else high = middle;
  }
  const span = timesS[high]! - timesS[low]!;
  const u = span > 0 ? Math.min(1, Math.max(0, (sourceS - timesS[low]!) / span)) : 0;
  return u === 0 ? angleDeg(low) : u === 1 ? angleDeg(high) : angleDeg(low) * (1 - u) + angleDeg(high) * u;
}
