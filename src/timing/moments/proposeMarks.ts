/** Moments of the take that are worth a mark: extremes, starts and ends of moves. */
import type { Motion } from '../../motion/motion.ts';
import { turningPoints } from '../snap/turningPoints.ts';
import type { MarkKind } from '../timingSettings.ts';
import { LIMB_JOINTS, LIMBS, type Limb, type Moments, type MomentsOf } from './moments.ts';

/** What a found mark can be. */
export type FoundKind = Extract<MarkKind, 'extreme' | 'start' | 'end'>;

export interface MarkProposal {
  readonly of: MomentsOf;
  readonly kind: FoundKind;
  readonly sourceS: number;
  /** The larger, the more it says: the turn, in degrees, of the move that starts or ends here, or from the extreme before to this one. */
  readonly weightDeg: number;
}

export interface ProposalSettings {
  readonly of: MomentsOf;
  /** Kinds that are wanted; empty: none are found. */
  readonly kinds: readonly FoundKind[];
  /** Part of the take that is used, container seconds. */
  readonly inS: number;
  readonly outS: number;
  /** Nearer than this, container seconds, two proposals are one: a step of the plan, say. */
  readonly leastApartS: number;
}

/**
 * Proposals for a limb, or for the whole body, rising in time.
 *
 * A start or an end is that of a move (of the body: from where all limbs rest to where all do). An extreme is where a joint of the limb
 * turns back; of the body, of any limb. Where several lie within `leastApartS` of each other the one of greatest weight stays; of equal ones the
 * first in time. A move that the take's part cuts off has no start or end there, since the performer did not start or stop.
 */
export function proposeMarks(motion: Motion, moments: Moments, { of, kinds, inS, outS, leastApartS }: ProposalSettings): readonly MarkProposal[] {
  const found: MarkProposal[] = [];
  const wanted = new Set<FoundKind>(kinds);
  const firstS = motion.timesS[0] ?? Number.NaN;
  const lastS = motion.timesS[motion.timesS.length - 1] ?? Number.NaN;
  for (const move of moments.moves) {
    if (move.of !== of) continue;
    if (wanted.has('start') && move.startS > firstS) found.push({ of, kind: 'start', sourceS: move.startS, weightDeg: move.sizeDeg });
    if (wanted.has('end') && move.endS < lastS) found.push({ of, kind: 'end', sourceS: move.endS, weightDeg: move.sizeDeg });
  }
  if (wanted.has('extreme')) for (const limb of of === 'body' ? LIMBS : [of]) found.push(...extremesOfLimb(motion, limb, of));
  return apart(found.filter(({ sourceS }) => sourceS > inS && sourceS < outS), leastApartS);
}

function extremesOfLimb(motion: Motion, limb: Limb, of: MomentsOf): readonly MarkProposal[] {
  return LIMB_JOINTS[limb].flatMap((joint) => {
    const points = turningPoints(motion, joint);
    return points.map(({ sourceS, angleDeg }, k): MarkProposal => {
      // the first has none before it: the way to the next says as much
      const beside = points[k - 1] ?? points[k + 1];
      return { of, kind: 'extreme', sourceS, weightDeg: beside === undefined ? 0 : Math.abs(angleDeg - beside.angleDeg) };
    });
  });
}

/** The heaviest first, each with the room it needs; then in time. */
function apart(found: readonly MarkProposal[], leastApartS: number): readonly MarkProposal[] {
  const kept: MarkProposal[] = [];
  for (const one of [...found].sort((a, b) => b.weightDeg - a.weightDeg || a.sourceS - b.sourceS)) {
    if (kept.every(({ sourceS }) => Math.abs(sourceS - one.sourceS) >= leastApartS)) kept.push(one);
  }
  return kept.sort((a, b) => a.sourceS - b.sourceS);
}
