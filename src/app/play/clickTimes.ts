/**
 * Which clicks fall into a while of playing, and when: worked out ahead from the plan alone, so that they can be given to the audio
 * clock before they are due and never wait for a picture. Pure.
 */
import type { Playing } from './playClock.ts';

/** A whole number of clicks is meant, where rounding leaves it a hair short. */
const HAIR = 1e-9;

/**
 * Moments at which places of the film are passed while it plays.
 *
 * Forwards a place is passed where it is reached; backwards too, so that a step clicks when it comes into sight, from either side. The
 * place where playing begins counts, as does the beginning of every round; the end of the span belongs to the next round.
 *
 * @param places exposures from 0, fractions allowed, in any order; those outside the played span are left out
 * @param fromS seconds since playing began: from here
 * @param toS up to here, this moment left out, so that whiles side by side have every click once
 * @returns seconds since playing began, rising
 */
export function passingsOf({ fromExposure, toExposure, startExposure, rate, speed, backwards, looped }: Playing, places: ArrayLike<number>, fromS: number, toS: number): readonly number[] {
  const span = toExposure - fromExposure;
  if (!(span > 0) || !(toS > fromS)) return [];
  const perS = rate * speed;
  // exposures run through since the beginning of the first round, as in playClock
  const begun = backwards ? toExposure - startExposure : startExposure - fromExposure;
  const gone: number[] = [];
  for (let k = 0; k < places.length; k++) {
    const place = backwards ? toExposure - places[k]! : places[k]! - fromExposure;
    if (place >= -HAIR && place < span - HAIR) gone.push(Math.max(0, place));
  }
  gone.sort((a, b) => a - b);
  const out: number[] = [];
  const firstRound = Math.max(0, Math.floor((begun + Math.max(0, fromS) * perS) / span) - 1);
  for (let round = firstRound; (looped || round === 0) && (round * span - begun) / perS < toS; round++) {
    for (const place of gone) {
      const atS = (place + round * span - begun) / perS;
      if (atS >= -HAIR && Math.max(0, atS) >= fromS && Math.max(0, atS) < toS) out.push(Math.max(0, atS));
    }
  }
  return out;
}

/**
 * Where the steps of the plan come into sight: forwards at their first exposure, backwards at their last one's end.
 *
 * @param exposure first exposure of each step, counted from 1; @param holds exposures for which it is held
 */
export function stepPlaces(exposure: ArrayLike<number>, holds: ArrayLike<number>, backwards: boolean): readonly number[] {
  return Array.from({ length: exposure.length }, (_, k) => exposure[k]! - 1 + (backwards ? holds[k]! : 0));
}

/**
 * Where the beats of the film fall: counted from its first exposure, so that they stay with the picture from round to round, backwards
 * and at another speed.
 *
 * @param rate exposures a second
 */
export function beatPlaces(exposures: number, rate: number, beatsPerMinute: number): readonly number[] {
  if (!(beatsPerMinute > 0)) return [];
  const apart = (60 * rate) / beatsPerMinute;
  return Array.from({ length: Math.floor(exposures / apart + HAIR) + 1 }, (_, k) => k * apart);
}
