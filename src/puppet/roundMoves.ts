/**
 * Moves that a hand can make: each joint's targets rounded to whole smallest moves, with what is left carried on.
 *
 * - What is ordered at a step is always rounded from the exact pose itself, never from a sum of rounded moves: the error
 *   stays within half a smallest move and can't add up. Orders add up exactly, since each leads from one ordered pose to the next.
 * - **Deadband.** Where the exact curve pokes out of the half move around what is ordered by less than the slack, and comes
 *   back within a few steps, nothing is ordered: the hand would only move there and back. There alone, and for so long, the
 *   error may reach half a smallest move plus the slack. At steps that are kept (extremes drawn there) the move is ordered.
 * - **Stagger.** The ordered poses of each joint lie on a grid of its own, set off by a part of a smallest move that
 *   differs from neighbour to neighbour (steps of the golden ratio). So a slow drift, which becomes one move every few
 *   steps, makes neighbouring joints move at different steps. The first pose is set up with that offset, within half a move.
 * - **Stops.** A joint of one axis is never ordered past its limit: the order then is up to the stop.
 */
import { angleOf, conjugate, fromRotationVector, multiply, normalise, readQuat, rotationVector, writeQuat, type Quat } from '../numeric/quaternion.ts';
import { length, scale, writeVec3, type Vec3 } from '../numeric/vector3.ts';

/** Longest excursion that the deadband swallows, steps; longer ones are worth the move. Our choice. */
export const DEADBAND_STEPS = 8;
/** Comparisons of the error with half a move: far below any hand. */
const HAIR = 1e-9;
const noneKept = (): boolean => false;

/** Part of a smallest move, -0.5..0.5 in tenths, by which joint p's grid is set off. */
export function gridPhase(p: number): number {
  const golden = (p * 0.6180339887498949) % 1;
  return Math.round((golden - 0.5) * 10) / 10;
}

/**
 * Rounds the targets of one axis.
 *
 * @param targets `[N]` in the unit of the hand (degrees, turns of a key); NaN where there is no pose
 * @param smallest the smallest move, the same unit
 * @param slack width of the deadband, the same unit
 * @param phase part of a smallest move by which the grid is set off, -0.5..0.5
 * @param stops least and most that the joint can stand at
 * @param isKept steps at which the deadband holds nothing back
 * @returns `[N]` ordered stands; NaN where there is no pose
 */
export function roundAxis(
  targets: ArrayLike<number>, smallest: number, slack: number, phase: number, stops: readonly [number, number] = [-Infinity, Infinity],
  isKept: (step: number) => boolean = noneKept,
): Float64Array {
  const count = targets.length;
  const out = new Float64Array(count).fill(Number.NaN);
  const [first, still] = firstAndStill(targets, smallest);
  // a joint that does nothing is set up as it is
  const origin = still ? first : phase * smallest;
  const nearest = (target: number): number => {
    const onGrid = origin + Math.round((target - origin) / smallest) * smallest;
    return Math.min(stops[1], Math.max(stops[0], onGrid));
  };
  let ordered = Number.NaN;
  for (let s = 0; s < count; s++) {
    const target = targets[s]!;
    if (Number.isNaN(target)) continue;
    if (Number.isNaN(ordered)) ordered = nearest(target);
    else if (Math.abs(target - ordered) > smallest / 2 + HAIR
      && (isKept(s) || !comesBack((t) => Math.abs(targets[t]! - ordered), s, count, smallest, slack))) {
      ordered = nearest(target);
    }
    out[s] = ordered;
  }
  return out;
}

function firstAndStill(targets: ArrayLike<number>, smallest: number): readonly [number, boolean] {
  let least = Infinity;
  let most = -Infinity;
  let first = Number.NaN;
  for (let s = 0; s < targets.length; s++) {
    const target = targets[s]!;
    if (Number.isNaN(target)) continue;
    if (Number.isNaN(first)) first = target;
    least = Math.min(least, target);
    most = Math.max(most, target);
  }
  return [first, !(most - least > smallest / 100)];
}

/** Whether the error, now above half a move, falls back within a few steps without ever leaving the deadband. */
function comesBack(errorAt: (step: number) => number, s: number, count: number, smallest: number, slack: number): boolean {
  if (slack <= 0) return false;
  for (let t = s; t < Math.min(count, s + DEADBAND_STEPS + 1); t++) {
    const error = errorAt(t);
    if (Number.isNaN(error) || error > smallest / 2 + slack) return false;
    if (error <= smallest / 2) return true;
  }
  return false;
}

/** Turns and moves of one joint within those of all joints: step s is entry `s·width + joint`. */
export interface BallRow {
  readonly joint: number;
  readonly width: number;
  readonly count: number;
}

/**
 * Rounds the targets of a ball or wire: its moves are whole smallest moves in size, about whatever axis leads straight to
 * the exact pose. So the whole error, as one angle, stays within half a smallest move, and no move is smaller than one.
 * (Rounding three axes apart would allow √3/2, and orders of less than a hand can make.) An ordered pose is the one before,
 * followed by the move: played back from the moves alone the poses come out the same.
 *
 * @param targets `[count·width·4]` turns from rest; NaN where there is no pose
 * @param smallestRad smallest move, radians. @param slackRad deadband. @param phase as for {@link roundAxis}
 * @param ordered `[count·width·4]` the joint's ordered turns are written here; untouched where there is no pose
 * @param moves `[count·width·3]` the move to make, a rotation vector in the parent's axes, radians; its length is a whole
 *   number of smallest moves; untouched where there is no pose
 * @param isKept as for {@link roundAxis}
 */
export function roundBall(
  targets: Float64Array, row: BallRow, smallestRad: number, slackRad: number, phase: number, ordered: Float64Array, moves: Float64Array,
  isKept: (step: number) => boolean = noneKept,
): void {
  const { joint, width, count } = row;
  const half = smallestRad / 2 + HAIR;
  // an error this small is no move, told from the cosine of half the angle without working out the angle
  const surely = Math.cos(half / 2) + 1e-12;
  let now: Quat | null = null;
  for (let s = 0; s < count; s++) {
    const at = s * width + joint;
    const w = targets[at * 4]!;
    if (Number.isNaN(w)) continue;
    let move: Vec3 = STILL;
    if (now === null) {
      now = multiply(fromRotationVector(startOffset(targets, row, s, smallestRad, phase)), readQuat(targets, at));
    } else {
      const cosine = w * now[0] + targets[at * 4 + 1]! * now[1] + targets[at * 4 + 2]! * now[2] + targets[at * 4 + 3]! * now[3];
      if (Math.abs(cosine) < surely) {
        const from: Quat = now;
        const wanted = rotationVector(multiply(readQuat(targets, at), conjugate(from)));
        const size = length(wanted);
        if (size > half && (isKept(s) || !comesBack((t) => angleOf(multiply(readQuat(targets, t * width + joint), conjugate(from))), s, count, smallestRad, slackRad))) {
          move = scale(wanted, (Math.round(size / smallestRad) * smallestRad) / size);
          now = normalise(multiply(fromRotationVector(move), from));
        }
      }
    }
    writeQuat(ordered, at, now);
    writeVec3(moves, at, move);
  }
}

const STILL: Vec3 = [0, 0, 0];

/** Where the first pose is set off to: along the way that the joint first goes, by the phase; nothing for a joint that stays. */
function startOffset(targets: Float64Array, { joint, width, count }: BallRow, first: number, smallestRad: number, phase: number): Vec3 {
  const back = conjugate(readQuat(targets, first * width + joint));
  for (let t = first + 1; t < count; t++) {
    const at = t * width + joint;
    if (Number.isNaN(targets[at * 4]!)) continue;
    const way = rotationVector(multiply(readQuat(targets, at), back));
    const size = length(way);
    if (size > smallestRad / 2) return scale(way, (phase * smallestRad) / size);
  }
  return STILL;
}
