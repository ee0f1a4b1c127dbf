/** A timing file: what is in it is read, what is missing stands as without one, what is wrong is told. */
import { describe, expect, it } from 'vitest';
import { parseTimingText } from '../../src/book/timingSchema.ts';
import { toErrorData } from '../../src/errors.ts';
import { DEFAULT_TIMING } from '../../src/timing/timingSettings.ts';

const mark = (id: string, sourceS: number, filmS: number): object => ({ id, sourceS, filmS, locked: false, kind: 'placed', name: id });

describe('a timing file', () => {
  it('may leave fields out', () => {
    expect(parseTimingText('{}')).toEqual(DEFAULT_TIMING);
    expect(parseTimingText('\uFEFF{"gauge":"16 mm","snapJoints":["leftElbow"]}')).toEqual({ ...DEFAULT_TIMING, gauge: '16 mm', snapJoints: ['leftElbow'] });
    const marks = [mark('a', 1, 1), mark('b', 1, 1.5)];
    expect(parseTimingText(JSON.stringify({ marks }))).toEqual({ ...DEFAULT_TIMING, marks });
  });

  it.each([
    ['{', /not JSON/],
    ['[]', /The timing is \[\]/],
    ['{"snapJoints":["tail"]}', /snapJoints\[0\].*"tail"/],
    ['{"holdSpans":[{"fromExposure":3,"on":5}]}', /holdSpans\[0\]\.on .*5/],
    [JSON.stringify({ marks: [mark('a', 1, 2), mark('b', 2, 1)] }), /marks.*rise/],
    [JSON.stringify({ marks: [mark('a', 2, 1), mark('b', 1, 2)] }), /marks.*rise/],
    ['{"tempo":2}', /does not know: tempo/],
  ])('%s is refused with a sentence', (text, says) => {
    let thrown: unknown;
    try {
      parseTimingText(text);
    } catch (cause) {
      thrown = cause;
    }
    const { code, sentence, tip } = toErrorData(thrown);
    expect(code).toBe('bad-timing');
    expect(sentence).toMatch(says);
    expect(tip).not.toBe('');
  });
});
