import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { fromBase64, toBase64 } from '../../src/book/base64.ts';
import { decodeTrack, encodeTrack, type EncodedTrack } from '../../src/book/trackCodec.ts';
import type { Track } from '../../src/pose/track.ts';
import { emptyTrack } from '../../src/pose/track.ts';
import { anyTrack, bytesOf, ODD_NAN_BITS, twoFrameTrack } from './examples.ts';
import { errorOf } from './expectError.ts';

function throughJson(track: Track): Track {
  return decodeTrack(JSON.parse(JSON.stringify(encodeTrack(track))));
}

describe('base64', () => {
  test('equals the platform’s own, and comes back, at every kind of length', () => {
    for (const length of [0, 1, 2, 3, 4, 5, 6, 1000, 1001, 1002]) {
      const bytes = Uint8Array.from({ length }, (_, i) => (i * 151 + (i >> 8)) & 255);
      const text = toBase64(bytes);
      expect(text).toBe(Buffer.from(bytes).toString('base64'));
      expect(fromBase64(text)).toEqual(bytes);
    }
  });

  test.each(['A', 'AB', 'ABC', 'AB=C', 'A===', '====', 'AA A', 'AAA\n', 'AA-_', 'AAA=AAAA', '€AAA', 'AB==', 'AAB='])('%j is refused', (text) => {
    expect(fromBase64(text)).toBeNull();
  });

  test('of a long take (16 million characters, 3.5 minutes at 60 frames a second) goes through', () => {
    const bytes = new Uint8Array(12_000_000).fill(200);
    expect(fromBase64(toBase64(bytes))?.length).toBe(bytes.length);
  });
});

describe('track codec', () => {
  test('any track comes back bit for bit, NaN with its payload included', () => {
    let oddNaNs = 0;
    fc.assert(
      fc.property(anyTrack, (track) => {
        if (new Uint32Array(track.world.buffer).includes(ODD_NAN_BITS)) oddNaNs += 1;
        expect(bytesOf(throughJson(track))).toEqual(bytesOf(track));
      }),
      { seed: 20263 },
    );
    expect(oddNaNs).toBeGreaterThan(10);
  });

  test('no frames at all come back', () => {
    expect(throughJson(emptyTrack('lite', 2, 3, new Float64Array(0))).timesS.length).toBe(0);
  });

  test('arrays that are a window into a larger buffer are written as the window', () => {
    const track = twoFrameTrack();
    const wide = new Float64Array([-5, ...track.timesS, 9]);
    const view = { ...track, timesS: wide.subarray(1, 3) };
    expect(bytesOf(throughJson(view))).toEqual(bytesOf(track));
  });

  test('times are little-endian float64, read here by hand', () => {
    const encoded = encodeTrack(twoFrameTrack());
    const view = new DataView(Uint8Array.from(Buffer.from(encoded.timesS, 'base64')).buffer);
    expect(view.getFloat64(8, true)).toBe(1001 / 30_000);
  });

  const good = encodeTrack(twoFrameTrack());
  const base64 = (numbers: Float64Array | Float32Array | Uint8Array) => Buffer.from(numbers.buffer).toString('base64');
  test.each<[string, Partial<Record<keyof EncodedTrack | 'more', unknown>>, string]>([
    ['a model that is none', { model: 'tiny' }, 'The field model of the track is "tiny"; allowed is one of lite, full, heavy.'],
    ['a version to come', { version: 2 }, 'The field version of the track is 2; allowed is 1.'],
    ['an unknown field', { more: 1 }, 'a field Nudgebook does not know: more'],
    ['a size of 0', { widthPx: 0 }, 'The field widthPx of the track is 0'],
    ['damaged base64', { image: `${good.image.slice(0, -5)}!` }, 'The field image of the track is not base64.'],
    ['half a number', { world: base64(new Uint8Array(7)) }, 'The field world of the track has 7 bytes; allowed are whole numbers of 4 bytes each.'],
    ['another number of frames', { frames: 3 }, 'The track has 2 times for 3 frames.'],
    ['too few coordinates', { world: base64(new Float32Array(197)) }, 'world has 197 numbers, and 2 frames need 198'],
    ['too many marks of found', { found: base64(new Uint8Array(3)) }, 'found has 3 numbers, and 2 frames need 2'],
    ['found of 2', { found: base64(Uint8Array.of(2, 0)) }, 'found of frame 0 is 2; allowed is 0 or 1'],
    ['times that stand still', { timesS: base64(Float64Array.of(1, 1)) }, 'the time of frame 1, 1 s, is not after the one before'],
    ['a time that is none', { timesS: base64(Float64Array.of(Number.NaN, 1)) }, 'the time of frame 0 is NaN'],
    ['a person without coordinates', { found: base64(Uint8Array.of(1, 1)) }, 'frame 1 has a person but lacks a coordinate'],
    ['coordinates without a person', { found: base64(Uint8Array.of(0, 0)) }, 'visibility of landmark 0 in frame 0 is'],
    ['visibility above 1', { visibility: base64(new Float32Array(66).fill(1.5)) }, 'is 1.5; allowed is 0 to 1'],
  ])('%s is refused in words', (_, change, words) => {
    const error = errorOf(() => decodeTrack({ ...good, ...change }));
    expect(error.code).toBe('bad-track');
    expect(error.message).toContain(words);
  });

  test('a track that would not open again is not written', () => {
    const track = twoFrameTrack();
    track.world[5] = Number.NaN;
    expect(errorOf(() => encodeTrack(track)).code).toBe('bad-track');
  });
});
