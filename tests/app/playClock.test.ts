import { expect, it } from 'vitest';
import { placeAt, type Playing, stepAtExposure } from '../../src/app/play/playClock.ts';

const playing: Playing = { fromExposure: 0, toExposure: 48, startExposure: 0, rate: 24, speed: 1, backwards: false, looped: true };

it('goes by the clock, loops without drift, and ends where it is not looped', () => {
  expect(placeAt(playing, 0.5).exposure).toBeCloseTo(12, 9);
  expect(placeAt({ ...playing, speed: 0.5 }, 0.5).exposure).toBeCloseTo(6, 9);
  expect(placeAt({ ...playing, speed: 0.25 }, 0.5).exposure).toBeCloseTo(3, 9);
  expect(placeAt(playing, 2 * 1000 + 0.25).exposure).toBeCloseTo(6, 6);
  const over = placeAt({ ...playing, looped: false }, 2.5);
  expect(over.ended).toBe(true);
  expect(Math.floor(over.exposure)).toBe(47);
});

it('goes backwards from the end, and within a span alone', () => {
  const back: Playing = { ...playing, backwards: true, startExposure: 48 };
  expect(placeAt(back, 0.5).exposure).toBeCloseTo(36, 9);
  expect(placeAt({ ...playing, fromExposure: 10, toExposure: 20, startExposure: 18 }, 4 / 24).exposure).toBeCloseTo(12, 6);
});

it('shows each step for its exposures', () => {
  const first = [1, 3, 4, 8];
  expect([0, 1.9, 2, 3, 6.9, 7, 99].map((exposure) => stepAtExposure(first, exposure))).toEqual([0, 0, 1, 2, 2, 3, 3]);
});
