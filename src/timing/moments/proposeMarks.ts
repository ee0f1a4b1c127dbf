/** Moments of the take that are worth a mark: extremes, starts and ends of moves. */
import type { TurningPoint } from '../snap/turningPoints.ts';
import type { MarkKind } from '../timingSettings.ts';
import { jointsOf, type Moments, type MomentsOf } from './moments.ts';

/** What a found mark can be. */
export type FoundKind = Extract<MarkKind, 'extreme' | 'start' | 'end'>;

export interface MarkProposal {
  readonly of: MomentsOf;
  readonly kind: FoundKind;
  readonly sourceS: number;
  /** Of an extreme: the joint that turns back, and its angle there, degrees. */
  readonly turn: TurningPoint | null;
  /** The larger, the more it says: the turn, in degrees, of the move that starts or ends here, or from the extreme before to this one. */
  readonly weightDeg: number;
  /** Of a start or an end: one move goes over into the next here, without a rest between. */
  readonly joins: boolean;
}

export interface ProposalSettings {
  readonly of: MomentsOf;
  /** Kinds that are wanted; empty: none are found. */
  readonly kinds: readonly FoundKind[];
  /** Part of the take that is used, container seconds. */
  readonly inS: number;
  readonly outS: number;
  /** An extreme to which a joint turned by less, degrees, is left out. */
  readonly leastTurnDeg?: number;
  /** Nearer than this, container seconds, two proposals are one: a step of the plan, say. */
  readonly leastApartS: number;
}

/**
 * Proposals for a limb, or for the whole body, rising in time.
 *
 * A start or an end is that of a move (of the body: from where all limbs rest to where all do). An extreme is where a joint of the limb
 * turns back; of the body, of any limb. Where several lie within `leastApartS` of each other the one of greatest weight stays; of equal ones the
 * first in time. A move that the take's part cuts off has no start or end there, since the performer did not start or stop.
 * Where one move goes over into the next, its end and the other's start are one proposal that says so.
 *
 * @param turns extremes of the joints that are to be looked at, of each joint rising in time; those of other limbs are left out
 */
export function proposeMarks(turns: readonly TurningPoint[], { moves }: Pick<Moments, 'moves'>, { of, kinds, inS, outS, leastTurnDeg = 0, leastApartS }: ProposalSettings): readonly MarkProposal[] {
  const found: MarkProposal[] = [];
  const wanted = new Set<FoundKind>(kinds);
  const own = moves.filter((move) => move.of === of);
  for (const [k, { startS, endS, sizeDeg: weightDeg }] of own.entries()) {
    const joins = (toS: number | undefined, fromS: number | undefined): boolean => toS !== undefined && fromS !== undefined && fromS - toS < leastApartS;
    if (wanted.has('start')) found.push({ of, kind: 'start', sourceS: startS, turn: null, weightDeg, joins: joins(own[k - 1]?.endS, startS) });
    if (wanted.has('end')) found.push({ of, kind: 'end', sourceS: endS, turn: null, weightDeg, joins: joins(endS, own[k + 1]?.startS) });
  }
  if (wanted.has('extreme')) for (const joint of jointsOf(of)) found.push(...extremesOfJoint(turns.filter((turn) => turn.joint === joint), of).filter(({ weightDeg }) => weightDeg >= leastTurnDeg));
  return apart(found.filter(({ sourceS }) => sourceS > inS && sourceS < outS), leastApartS);
}

function extremesOfJoint(points: readonly TurningPoint[], of: MomentsOf): readonly MarkProposal[] {
  return points.map((turn, k): MarkProposal => {
    // the first has none before it: the way to the next says as much
    const beside = points[k - 1] ?? points[k + 1];
    return { of, kind: 'extreme', sourceS: turn.sourceS, turn, weightDeg: beside === undefined ? 0 : Math.abs(turn.angleDeg - beside.angleDeg), joins: false };
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
