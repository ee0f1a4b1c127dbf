/** Time code and feet against published tables (data/counts.json: SMPTE ST 12-1 rule, film gauges; figures computed in November 2026). */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { feetOf, feetWords, framesOf } from '../../../src/timing/counts/filmFeet.ts';
import { exposureOfTimecode, timecodeKind, timecodeOf } from '../../../src/timing/counts/timecode.ts';

interface Data {
  readonly drop_frame: { readonly cases: readonly { frame: number; timecode: string }[]; readonly frames_per_10min: number; readonly frames_per_hour: number };
  readonly frame_tables: { readonly footage: readonly { frames: number; ft_frames_35mm_4perf: [number, number]; ft_frames_16mm: [number, number] }[] };
}
const data = JSON.parse(readFileSync(new URL('../data/counts.json', import.meta.url), 'utf8')) as Data;
const DROP = { base: 30, drop: true };

it.each(data.drop_frame.cases)('frame $frame is $timecode', ({ frame, timecode }) => {
  expect(timecodeOf(frame, DROP)).toBe(timecode);
  expect(exposureOfTimecode(timecode, DROP)).toBe(frame);
});

it('labels and frames lead back to each other, with and without dropping, at 30 and 60', () => {
  fc.assert(fc.property(fc.integer({ min: 0, max: 2_589_407 }), fc.constantFrom(DROP, { base: 60, drop: true }, { base: 24, drop: false }, { base: 25, drop: false }), (frame, kind) => {
    const day = kind.base * 86_400 - (kind.drop ? (kind.base === 60 ? 4 : 2) * 1296 : 0);
    expect(exposureOfTimecode(timecodeOf(frame, kind), kind)).toBe(frame % day);
  }));
  expect(timecodeOf(data.drop_frame.frames_per_10min, DROP)).toBe('00:10:00;00');
  expect(timecodeOf(data.drop_frame.frames_per_hour, DROP)).toBe('01:00:00;00');
});

it('labels that are left out, and nonsense, name nothing', () => {
  for (const label of ['00:01:00;00', '00:01:00;01', '00:00:00;30', '24:00:00;00', 'soon', '00:60:00;00']) expect(exposureOfTimecode(label, DROP)).toBeNull();
  expect(exposureOfTimecode('00:10:00;00', DROP)).toBe(17982);
});

it('rates are told by their label: 24 and 25 drop nothing, 29.97 does, 12.5 has none', () => {
  expect(timecodeKind(24)).toEqual({ base: 24, drop: false });
  expect(timecodeKind(24000 / 1001)).toEqual({ base: 24, drop: false });
  expect(timecodeKind(25)).toEqual({ base: 25, drop: false });
  expect(timecodeKind(29.97)).toEqual({ base: 30, drop: true });
  expect(timecodeKind(30)).toEqual({ base: 30, drop: false });
  expect(timecodeKind(12.5)).toBeNull();
});

it.each(data.frame_tables.footage)('$frames frames in feet', ({ frames, ft_frames_35mm_4perf: wide, ft_frames_16mm: narrow }) => {
  expect(feetOf(frames, '35 mm')).toEqual({ feet: wide[0], frames: wide[1] });
  expect(feetOf(frames, '16 mm')).toEqual({ feet: narrow[0], frames: narrow[1] });
  expect(framesOf(feetOf(frames, '16 mm'), '16 mm')).toBe(frames);
});

it('is written as the trade does', () => {
  expect(feetWords(100, '35 mm')).toBe('6+04');
  expect(feetWords(100, '16 mm')).toBe('2+20');
});
