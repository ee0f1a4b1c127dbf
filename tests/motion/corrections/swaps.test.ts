import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { SwapPart } from '../../../src/motion/corrections/corrections.ts';
import { exchange, repairSwaps } from '../../../src/motion/corrections/swaps.ts';
import { LANDMARK } from '../../../src/pose/landmarks.ts';
import type { Track } from '../../../src/pose/track.ts';
import { trackFromJson } from '../../../src/pose/trackJson.ts';
import { evenNumbers, film, FRONT, stand, STANDING, times, FAULTS, type SyntheticPose } from '../fit/syntheticTake.ts';

const sway = (timeS: number): SyntheticPose => {
  const s = Math.sin(2 * timeS);
  return stand({
    ...STANDING, trunk: 8 * s, yaw: 15 * Math.sin(timeS),
    arms: [{ forward: 30 * s, sideways: 20, elbow: 30 + 20 * s }, { forward: -30 * s, sideways: 15, elbow: 20 }],
    legs: [{ forward: 15 * s, sideways: 6, knee: 10 }, { forward: -15 * s, sideways: 6, knee: 10 }],
  });
};
const tracks = [1, 2, 3].flatMap((seed) => [0, 30].map((azimuthDeg) => film(times(6, 30), sway, { ...FRONT, azimuthDeg }, { ...FAULTS, seed }).track));
const GENERATED = new URL('../../../generated/accuracy/', import.meta.url);

function same(a: Track, b: Track): boolean {
  return a.image.every((v, i) => Object.is(v, b.image[i])) && a.visibility.every((v, i) => Object.is(v, b.visibility[i]));
}

describe('left and right mistaken', { timeout: 60_000 }, () => {
  it.each(['all', 'legs', 'arms'] as const)('%s: found and turned back, from one frame to a second', (part: SwapPart) => {
    const even = evenNumbers(7);
    let right = 0;
    const tries = 120;
    for (let k = 0; k < tries; k++) {
      const track = tracks[k % tracks.length]!;
      const length = 1 + Math.floor(even() * 30);
      const from = 5 + Math.floor(even() * (170 - length));
      const spoilt = exchange(track, [{ from, to: from + length - 1, part }]);
      const { track: back, swaps } = repairSwaps(spoilt, []);
      if (same(back, track) && swaps.length === 1) right += 1;
    }
    console.info(`swaps of ${part}: ${right} of ${tries} turned back exactly`);
    expect(right).toBeGreaterThanOrEqual(0.95 * tries);
  });

  it('a performer who turns round is left alone, also quickly', () => {
    for (const perS of [90, 180, 400]) {
      const { track } = film(times(4, 30), (timeS) => ({ ...sway(timeS), yaw: perS * timeS }), FRONT);
      expect(repairSwaps(track, []).swaps).toEqual([]);
    }
  });

  it('tracks without swaps are left alone', () => {
    for (const track of tracks) expect(repairSwaps(track, []).track).toBe(track);
  });

  it('nothing is found in the tracks of rendered clips', ({ skip }) => {
    if (!existsSync(GENERATED)) {
      console.warn('SKIPPED: no posed clips here; npm run accuracy makes them.');
      return skip('no posed clips');
    }
    const files = readdirSync(GENERATED).filter((name) => name.endsWith('.track.json') && !name.startsWith('practice-'));
    const found: string[] = [];
    for (const file of files) {
      const { swaps } = repairSwaps(trackFromJson(JSON.parse(readFileSync(new URL(file, GENERATED), 'utf8'))), []);
      for (const swap of swaps) found.push(`${file}: ${JSON.stringify(swap)}`);
    }
    console.info(`${files.length} posed clips; ${found.length === 0 ? 'no swap' : found.join('\n')}`);
    expect(found.filter((line) => line.includes('"repaired"'))).toEqual([]);
  });

  it('a swap that begins with the take may be the truth: said, and left as measured', () => {
    const spoilt = exchange(tracks[0]!, [{ from: 0, to: 19, part: 'all' }]);
    const { track, swaps } = repairSwaps(spoilt, []);
    expect(same(track, spoilt)).toBe(true);
    expect(swaps.map(({ state }) => state)).toEqual(['doubtful']);
  });

  it('a person’s word wins, both ways', () => {
    const track = tracks[0]!;
    const spoilt = exchange(track, [{ from: 60, to: 75, part: 'legs' }]);
    const span = { fromS: 55 / 30, toS: 80 / 30, part: 'legs' } as const;
    expect(same(repairSwaps(spoilt, [{ ...span, swapped: false }]).track, spoilt)).toBe(true);
    const byHand = repairSwaps(track, [{ ...span, swapped: true }]);
    expect(byHand.swaps).toEqual([{ ...span, state: 'byHand' }]);
    expect(byHand.track.image[(60 * 33 + LANDMARK.leftKnee) * 3]).toBe(track.image[(60 * 33 + LANDMARK.rightKnee) * 3]);
    expect(byHand.track.image[(60 * 33 + LANDMARK.leftElbow) * 3]).toBe(track.image[(60 * 33 + LANDMARK.leftElbow) * 3]);
    expect(byHand.track.image[(20 * 33 + LANDMARK.leftKnee) * 3]).toBe(track.image[(20 * 33 + LANDMARK.leftKnee) * 3]);
  });

  it('exchanged twice is as before; the given track is not touched', () => {
    const track = tracks[1]!;
    const before = track.image.slice();
    const twice = exchange(exchange(track, [{ from: 3, to: 9, part: 'all' }]), [{ from: 3, to: 9, part: 'all' }]);
    expect(same(twice, track)).toBe(true);
    expect(track.image).toEqual(before);
  });
});
