/** Clicks are due when the picture changes, whichever way it is played. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beatPlaces, passingsOf, stepPlaces } from '../../src/app/play/clickTimes.ts';
import { placeAt, type Playing, PLAY_SPEEDS, stepAtExposure } from '../../src/app/play/playClock.ts';
import { SEEDED } from '../numeric/arbitrary.ts';

const playing: Playing = { fromExposure: 0, toExposure: 8, startExposure: 0, rate: 24, speed: 1, backwards: false, looped: false };
const onTwos = { exposure: [1, 3, 5, 7], holds: [2, 2, 2, 2] };
const frames = (timesS: readonly number[], speed = 1): number[] => timesS.map((t) => Number((t * 24 * speed).toFixed(6)));

describe('clicks of the steps', () => {
  it('by hand: forwards, backwards, looped, at half speed, from the middle', () => {
    const forwards = stepPlaces(onTwos.exposure, onTwos.holds, false);
    const backwards = stepPlaces(onTwos.exposure, onTwos.holds, true);
    expect(frames(passingsOf(playing, forwards, 0, 10))).toEqual([0, 2, 4, 6]);
    expect(frames(passingsOf({ ...playing, looped: true }, forwards, 0, 16 / 24))).toEqual([0, 2, 4, 6, 8, 10, 12, 14]);
    expect(frames(passingsOf({ ...playing, speed: 0.5 }, forwards, 0, 10))).toEqual([0, 4, 8, 12]);
    expect(frames(passingsOf({ ...playing, startExposure: 4 }, forwards, 0, 10))).toEqual([0, 2]);
    expect(frames(passingsOf({ ...playing, backwards: true, startExposure: 8 }, backwards, 0, 10))).toEqual([0, 2, 4, 6]);
    expect(frames(passingsOf({ ...playing, backwards: true, startExposure: 4, looped: true }, backwards, 0, 8 / 24))).toEqual([0, 2, 4, 6]);
  });

  it('nothing is played, nothing clicks', () => {
    expect(passingsOf({ ...playing, toExposure: 0 }, [0], 0, 10)).toEqual([]);
    expect(passingsOf(playing, [], 0, 10)).toEqual([]);
    expect(passingsOf(playing, [0, 2], 1, 1)).toEqual([]);
  });

  const anyPlay = fc.record({
    holds: fc.array(fc.integer({ min: 1, max: 4 }), { minLength: 1, maxLength: 30 }), span: fc.tuple(fc.nat(100), fc.nat(100)), start: fc.nat(100),
    rate: fc.constantFrom(12, 24, 25, 30), speed: fc.constantFrom(...PLAY_SPEEDS), backwards: fc.boolean(), looped: fc.boolean(),
  }).map(({ holds, span, start, ...how }) => {
    const exposure = holds.map((_, k) => 1 + holds.slice(0, k).reduce((sum, hold) => sum + hold, 0));
    const [a, b] = span.map((k) => k % holds.length).sort((x, y) => x - y) as [number, number];
    const at = a + (start % (b - a + 1));
    const play: Playing = {
      fromExposure: exposure[a]! - 1, toExposure: exposure[b]! - 1 + holds[b]!, startExposure: exposure[at]! - 1 + (how.backwards ? holds[at]! : 0), ...how,
    };
    return { exposure, holds, play };
  });

  it('every step that comes into sight has one click, at that very moment', () => {
    fc.assert(fc.property(anyPlay, ({ exposure, holds, play }) => {
      const places = stepPlaces(exposure, holds, play.backwards);
      const lengthS = 2.5;
      const clicks = passingsOf(play, places, 0, lengthS);
      // the picture, looked at in the middle of each exposure of the audience's time
      const perS = play.rate * play.speed;
      const seen: number[] = [];
      let former = -1;
      let rounds = -1;
      for (let k = 0; (k + 0.5) / perS < lengthS; k++) {
        const { exposure: at, ended } = placeAt(play, (k + 0.5) / perS);
        if (ended) break;
        const step = stepAtExposure(exposure, at);
        const round = Math.floor(((play.backwards ? play.toExposure - play.startExposure : play.startExposure - play.fromExposure) + k + 0.5) / (play.toExposure - play.fromExposure));
        if (step !== former || round !== rounds) seen.push(k / perS);
        [former, rounds] = [step, round];
      }
      // of the last exposure its middle may lie behind the end, its click before it
      const within = clicks.filter((t) => t < (seen.at(-1) ?? 0) + 0.5 / perS);
      expect(within.length).toBe(seen.length);
      within.forEach((t, k) => expect(t).toBeCloseTo(seen[k]!, 6));
    }), SEEDED);
  });

  it('whiles side by side have what the whole has', () => {
    fc.assert(fc.property(anyPlay, fc.array(fc.double({ min: 0.001, max: 0.4, noNaN: true }), { minLength: 1, maxLength: 12 }), ({ exposure, holds, play }, gaps) => {
      const places = stepPlaces(exposure, holds, play.backwards);
      let at = 0;
      const pieces = gaps.flatMap((gap) => {
        const from = at;
        at += gap;
        return passingsOf(play, places, from, at);
      });
      expect(pieces).toEqual(passingsOf(play, places, 0, at));
    }), SEEDED);
  });
});

it('beats stay with the film: 120 a minute at 24 are every 12 exposures', () => {
  const places = beatPlaces(48, 24, 120);
  expect(places).toEqual([0, 12, 24, 36, 48]);
  const whole: Playing = { ...playing, toExposure: 48, looped: true };
  expect(passingsOf(whole, places, 0, 2).map((t) => Number(t.toFixed(6)))).toEqual([0, 0.5, 1, 1.5]);
  expect(passingsOf({ ...whole, speed: 0.5 }, places, 0, 2).map((t) => Number(t.toFixed(6)))).toEqual([0, 1]);
  expect(passingsOf({ ...whole, backwards: true, startExposure: 48 }, places, 0, 2).map((t) => Number(t.toFixed(6)))).toEqual([0, 0.5, 1, 1.5]);
  expect(beatPlaces(48, 24, 0)).toEqual([]);
});
