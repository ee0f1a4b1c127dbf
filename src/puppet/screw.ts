/**
 * A joint opened by a key over a thread.
 *
 * The thread moves in a straight line by its lead (pitch × starts) for each turn of the key: the lead-screw formula. Its end
 * pushes a lever at the distance `leverMm` from the joint's axis, measured square to the thread; the lever's contact stays
 * on the thread's line, so travel = lever × tan(opening from square).
 */
import type { CompleteScrew } from './complete.ts';

const RAD = Math.PI / 180;
/** Farthest a lever may stand from square: beyond, a thread wedges rather than pushes. Our choice. */
export const SCREW_REACH_DEG = 80;

/** Turns of the key from the square stand to an opening; within ±SCREW_REACH_DEG of square. */
export function turnsOfOpening(screw: CompleteScrew, openingDeg: number): number {
  const travelMm = screw.leverMm * Math.tan((openingDeg - screw.squareAtDeg) * RAD);
  return travelMm / (screw.pitchMm * screw.starts);
}

/** The opening, degrees, at so many turns of the key from the square stand: the inverse of {@link turnsOfOpening}. */
export function openingOfTurns(screw: CompleteScrew, turns: number): number {
  return screw.squareAtDeg + Math.atan((turns * screw.pitchMm * screw.starts) / screw.leverMm) / RAD;
}
