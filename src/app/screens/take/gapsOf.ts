import { STATE_MISSING } from '../../../motion/motion.ts';
import type { Plan } from '../../../plan/plan.ts';
import type { Track } from '../../../pose/track.ts';
import { nearestStep } from '../../state/nearestStep.ts';

/** Frames `fromS`..`toS` in which nobody was found. */
export interface Gap {
  readonly fromS: number;
  readonly toS: number;
  /** Too long to be bridged. */
  readonly open: boolean;
}

/** Spans of the track without anybody in them, as far as the plan uses them. */
export function gapsOf(track: Track, plan: Plan): readonly Gap[] {
  const gaps: Gap[] = [];
  const first = plan.sourceTimeS[0] ?? 0;
  const last = plan.sourceTimeS[plan.stepCount - 1] ?? 0;
  const observable = plan.joints.flatMap((joint, j) => (joint.observable ? [j] : []));
  let start = -1;
  for (let t = 0; t <= track.timesS.length; t += 1) {
    const empty = t < track.timesS.length && track.found[t] !== 1;
    if (empty && start < 0) start = t;
    if (empty || start < 0) continue;
    const [fromS, toS] = [track.timesS[start]!, track.timesS[t - 1]!];
    start = -1;
    if (toS < first || fromS > last) continue;
    const step = nearestStep(plan, (fromS + toS) / 2);
    gaps.push({ fromS, toS, open: observable.length > 0 && observable.every((j) => plan.state[step * plan.joints.length + j] === STATE_MISSING) });
  }
  return gaps;
}
