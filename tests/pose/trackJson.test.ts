import { describe, expect, it } from 'vitest';
import { trackFromJson, trackToJson } from '../../src/pose/trackJson.ts';
import { testTrack } from './testTrack.ts';

/** The JSON form as it comes out of a file, so that a test can spoil it. */
function spoiled(change: (data: { [key: string]: unknown; frames: ({ [key: string]: unknown[] } | null)[]; timesS: unknown[] }) => void): unknown {
  const data = JSON.parse(JSON.stringify(trackToJson(testTrack()))) as Parameters<typeof change>[0];
  change(data);
  return data;
}

describe('a track in JSON', () => {
  it('comes back the same but for the stated rounding', () => {
    const track = testTrack();
    const back = trackFromJson(JSON.parse(JSON.stringify(trackToJson(track))));
    expect(back.model).toBe('full');
    expect([back.widthPx, back.heightPx]).toEqual([720, 1280]);
    expect([...back.timesS]).toEqual([...track.timesS]);
    expect([...back.found]).toEqual([1, 0, 1, 1]);
    // Half a step of rounding, and a float32's own half step on top.
    for (const [name, tolerance] of [['image', 0.51e-5], ['world', 0.51e-5], ['visibility', 0.51e-3]] as const) {
      track[name].forEach((value, i) => {
        if (Number.isNaN(value)) expect(back[name][i]).toBeNaN();
        else expect(Math.abs((back[name][i] ?? Number.NaN) - value)).toBeLessThanOrEqual(tolerance);
      });
    }
  });

  it('is the same when written a second time', () => {
    const once = trackToJson(testTrack());
    expect(trackToJson(trackFromJson(once))).toEqual(once);
  });

  it('says null where nobody was found, and holds no number that JSON cannot', () => {
    const json = trackToJson(testTrack());
    expect(json.frames[1]).toBeNull();
    expect(JSON.stringify(json).match(/null/g)).toHaveLength(1);
  });

  it.each<[string, Parameters<typeof spoiled>[0], string]>([
    ['another format', (d) => { d['format'] = 'x'; }, '"format" is not "nudgebook track"'],
    ['a later version', (d) => { d['version'] = 2; }, '"version" is 2'],
    ['an unknown model', (d) => { d['model'] = 'huge'; }, '"model" is "huge"'],
    ['no width', (d) => { delete d['widthPx']; }, '"widthPx" is missing'],
    ['a width of 0', (d) => { d['widthPx'] = 0; }, '"widthPx" is 0'],
    ['times that fall', (d) => { d.timesS[2] = 0; }, '"timesS" does not rise from 0 on at entry 2'],
    ['a time that is no number', (d) => { d.timesS[1] = null; }, '"timesS" has no number at entry 1'],
    ['a frame too few', (d) => { d.frames.pop(); }, '"frames" has 3 entries, "timesS" has 4'],
    ['too few numbers', (d) => { d.frames[2]?.['world']?.pop(); }, '"frames[2].world" has 98 numbers instead of 99'],
    ['a word among the numbers', (d) => { d.frames[0]!['image']![7] = 'x'; }, '"frames[0].image" has no number at entry 7'],
    ['a visibility of 2', (d) => { d.frames[3]!['visibility']![0] = 2; }, '"frames[3].visibility" leaves 0..1'],
  ])('with %s is refused with the place', (_, change, words) => {
    expect(() => trackFromJson(spoiled(change))).toThrow(expect.objectContaining({ code: 'bad-track', message: expect.stringContaining(words) as string }) as Error);
  });

  it.each([undefined, null, 7, 'x', []])('that is %j is refused', (data) => {
    expect(() => trackFromJson(data)).toThrow(expect.objectContaining({ code: 'bad-track' }) as Error);
  });
});
