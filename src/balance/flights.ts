/**
 * Jumps and falls: whiles in which nothing touches, against what a body of the size that is read would do.
 *
 * In the air the centre of mass follows a parabola with the acceleration g. At the size that the figure reads as, a metre is k
 * millimetres of the puppet, so on the set it is g·k mm/s² of film time. Of all parabolas with that acceleration the one
 * nearest to the poses of the flight (least squares) is shown; where the time aloft is another than that of the same rise and fall,
 * the figure floats or drops. It leaves the floor and comes back at moments between two poses: half-way is taken, in time and in height, which is right
 * to half a step.
 */
import { GRAVITY_M_S2 } from '../puppet/timeScale.ts';
import type { Flight } from './balance.ts';

/** A rise of less than this before the fall makes no jump, as a part of the way down. Our choice. */
const JUMP_RISE = 0.05;

/**
 * Anything thrown or dropped bulges by g·t²/8 over the straight line from where it leaves to where it lands. Whoever bulges for less than this part
 * of the time in which nothing is said to touch was not in the air: a landing was missed. A performance slowed 2.8 times still
 * counts as a flight. Our choice, after the walks among the clips with truth (docs/balance.md).
 */
const LEAST_FLIGHT = 0.35;

/** Seconds that a body takes to fall from rest through a height. */
export function fallTimeS(heightM: number): number {
  return Math.sqrt((2 * Math.max(0, heightM)) / GRAVITY_M_S2);
}

export interface FlightSources {
  /** `[N]` 1 where it is known that nothing touches; `[N]` 1 where it is known that something does. */
  readonly aloft: Uint8Array;
  readonly grounded: Uint8Array;
  /** `[N·3]` centre of mass, mm; NaN where there is no pose. */
  readonly massMm: Float64Array;
  readonly filmTimeS: Float64Array;
  /** Millimetres of the puppet for a metre of the figure that is read. */
  readonly mmPerM: number;
}

/** What seems to be a flight, and whether it can be one at all. */
export interface Airborne {
  readonly flight: Flight;
  readonly flies: boolean;
}

/** Flights that begin and end with a pose that touches; a while in the air that begins or ends in the unknown is left open and not judged. */
export function flightsOf({ aloft, grounded, massMm, filmTimeS, mmPerM }: FlightSources): readonly Airborne[] {
  const count = aloft.length;
  const out: Airborne[] = [];
  for (let s = 1; s < count; s++) {
    if (aloft[s] !== 1 || grounded[s - 1] !== 1) continue;
    const from = s;
    while (s < count && aloft[s] === 1) s++;
    if (s < count && grounded[s] === 1) out.push(flight(from, s - 1, massMm, filmTimeS, mmPerM));
  }
  return out;
}

function flight(from: number, to: number, massMm: Float64Array, filmTimeS: Float64Array, mmPerM: number): Airborne {
  const height = (s: number): number => massMm[s * 3 + 1]!;
  const [leave, land] = [from - 1, to + 1];
  const gravity = GRAVITY_M_S2 * mmPerM;
  // y + g·t²/2 = y0 + v·t is a straight line: the least squares of its points
  const n = to - from + 1;
  const start = filmTimeS[from]!;
  let [sumT, sumY, sumTT, sumTY] = [0, 0, 0, 0];
  for (let s = from; s <= to; s++) {
    const t = filmTimeS[s]! - start;
    const y = height(s) + (gravity * t * t) / 2;
    sumT += t;
    sumY += y;
    sumTT += t * t;
    sumTY += t * y;
  }
  const spread = n * sumTT - sumT * sumT;
  const speed = spread > 0 ? (n * sumTY - sumT * sumY) / spread : 0;
  const first = (sumY - speed * sumT) / n;
  const parabolaMm = new Float64Array(n);
  let offMm = 0;
  const leaveMm = (height(leave) + height(from)) / 2;
  const landMm = (height(to) + height(land)) / 2;
  const leaveS = (filmTimeS[leave]! + start) / 2;
  const aloftS = (filmTimeS[land]! + filmTimeS[to]!) / 2 - leaveS;
  let top = Math.max(leaveMm, landMm);
  let bulgeMm = 0;
  for (let s = from; s <= to; s++) {
    const t = filmTimeS[s]! - start;
    parabolaMm[s - from] = first + speed * t - (gravity * t * t) / 2;
    offMm = Math.max(offMm, Math.abs(parabolaMm[s - from]! - height(s)));
    top = Math.max(top, height(s));
    bulgeMm = Math.max(bulgeMm, height(s) - leaveMm - ((landMm - leaveMm) * (filmTimeS[s]! - leaveS)) / aloftS);
  }
  const up = (top - leaveMm) / mmPerM;
  const down = (top - landMm) / mmPerM;
  const aloftErrorS = (filmTimeS[land]! - filmTimeS[to]! + filmTimeS[from]! - filmTimeS[leave]!) / 2;
  const ballisticS = fallTimeS(up) + fallTimeS(down);
  const reads = aloftS > ballisticS + aloftErrorS ? 'floats' : aloftS < ballisticS - aloftErrorS ? 'drops' : 'in time';
  // a figure that only drops leaves the floor without a rise
  const kind = up > JUMP_RISE * down ? 'jump' : 'fall';
  return {
    flight: { fromStep: from, toStep: to, kind, aloftS, aloftErrorS, ballisticS, reads, offMm, parabolaMm },
    flies: bulgeMm >= (LEAST_FLIGHT ** 2 * gravity * aloftS ** 2) / 8,
  };
}
