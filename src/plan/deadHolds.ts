/** Dead holds: whiles in which nothing is ordered to move at all. */
import type { Plan } from './plan.ts';

export interface DeadHold {
  /** From 0, both included: no joint moves on the way to any of these but the first. */
  readonly fromStep: number;
  readonly toStep: number;
}

const STILL_DEG = 1e-6;
const STILL_MM = 1e-3;

/** In order; steps without a pose end one. @param mostStill longer than so many steps without a move looks dead */
export function deadHolds({ stepCount, joints, turnDeg, incrementDeg, orderedRootMm, holding }: Pick<Plan, 'stepCount' | 'joints' | 'turnDeg' | 'incrementDeg' | 'orderedRootMm' | 'holding'>, mostStill: number): readonly DeadHold[] {
  const width = joints.length;
  const moves = (s: number): boolean => {
    for (let p = 0; p < width; p++) {
      const turn = incrementDeg[s * width + p]!;
      if (Number.isNaN(turn) || Math.abs(turn) > STILL_DEG || Math.abs(turnDeg[(s * width + p) * 3]!) > STILL_DEG) return true;
    }
    // a puppet that hangs from a rig is moved by the rig
    if (holding[s] === -1) for (let c = 0; c < 3; c++) if (!(Math.abs(orderedRootMm[s * 3 + c]! - orderedRootMm[(s - 1) * 3 + c]!) < STILL_MM)) return true;
    return false;
  };
  const out: DeadHold[] = [];
  let from = 0;
  for (let s = 1; s <= stepCount; s++) {
    if (s < stepCount && !moves(s)) continue;
    if (s - from > mostStill) out.push({ fromStep: from, toStep: s - 1 });
    from = s;
  }
  return out;
}
