/** Editing marks: whatever is done in whatever order, the timing stays sound, locked marks stay, and undoing gives the same back. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { NudgebookError } from '../../../src/errors.ts';
import { lockMark, moveMark, placeMark, placeMarks, removeMark, renameMark, typeMark, warpFor, type MarkContext } from '../../../src/timing/marks/marks.ts';
import { atInPoint, atRate, atTimeScale } from '../../../src/timing/marks/settingsChange.ts';
import { insertPause, lengthenSpan, resizeSpan, speedSpan } from '../../../src/timing/marks/spans.ts';
import { layOutSteps } from '../../../src/timing/steps.ts';
import { DEFAULT_TIMING, type TimingSettings } from '../../../src/timing/timingSettings.ts';

const CONTEXT: MarkContext = { base: { inS: 1, outS: 7, sourcePerFilm: 1 }, rate: 24 };
const mark = (id: string, sourceS: number) => ({ id, sourceS, kind: 'placed' as const, name: id });
const three = ['a', 'b', 'c'].reduce((timing, id, k) => placeMark(timing, CONTEXT, mark(id, 2 + k)), DEFAULT_TIMING);
const film = (timing: TimingSettings): number[] => timing.marks.map(({ filmS }) => filmS);

/** The refusal of an edit. */
function refusal(run: () => unknown): NudgebookError {
  try {
    run();
  } catch (thrown) {
    if (thrown instanceof NudgebookError) return thrown;
    throw thrown;
  }
  throw new Error('was not refused');
}

describe('marks', () => {
  it('change nothing when they are placed', () => {
    expect(film(three)).toEqual([1, 2, 3]);
    const timing = { inS: 1, outS: 7, captureFactor: 1, rate: 24, on: 2, timeScale: 1 };
    const plain = layOutSteps(timing, 0, 9);
    const marked = layOutSteps({ ...timing, marks: three.marks }, 0, 9);
    expect(marked.count).toBe(plain.count);
    marked.sourceTimeS.forEach((t, s) => expect(t).toBeCloseTo(plain.sourceTimeS[s]!, 12));
  });

  it('move alone, to whole exposures, and stop one short of their neighbours', () => {
    expect(film(moveMark(three, CONTEXT, 'b', 2.51))).toEqual([1, Math.round(2.51 * 24) / 24, 3]);
    expect(film(moveMark(three, CONTEXT, 'b', 9))).toEqual([1, 3 - 1 / 24, 3]);
    expect(film(moveMark(three, CONTEXT, 'b', -4))).toEqual([1, 1 + 1 / 24, 3]);
    expect(film(moveMark(three, CONTEXT, 'c', 11))).toEqual([1, 2, 11]);
    expect(refusal(() => moveMark(lockMark(three, 'b', true), CONTEXT, 'b', 2.2)).message).toContain('locked');
  });

  it('can be typed to an exposure, or the nearest free one is told', () => {
    expect(film(typeMark(three, CONTEXT, 'b', 60))).toEqual([1, 59 / 24, 3]);
    expect(refusal(() => typeMark(three, CONTEXT, 'b', 90)).message).toContain('nearest free one is 72');
    expect(refusal(() => typeMark(three, CONTEXT, 'b', 1.5)).code).toBe('bad-timing');
  });

  it('are refused outside the take, on the first exposure and on each other', () => {
    for (const at of [0.5, 7.2, 1, 2.001]) expect(refusal(() => placeMark(three, CONTEXT, mark('d', at))).tip).not.toBe('');
    expect(placeMarks(three, CONTEXT, [mark('d', 2.001), mark('e', 5)]).marks.map(({ id }) => id)).toEqual(['a', 'b', 'c', 'e']);
  });
});

describe('spans', () => {
  const [from, to] = [mark('a', 2), mark('b', 3)];

  it('get a length; what comes after moves along', () => {
    expect(film(resizeSpan(three, CONTEXT, from, to, 36))).toEqual([1, 2.5, 3.5]);
    expect(film(lengthenSpan(three, CONTEXT, from, to, -6))).toEqual([1, 1.75, 2.75]);
    expect(film(speedSpan(three, CONTEXT, from, to, 2))).toEqual([1, 1.5, 2.5]);
    // ends that have no mark get one
    expect(film(resizeSpan(DEFAULT_TIMING, CONTEXT, mark('x', 1), mark('y', 4), 24))).toEqual([1]);
  });

  it('stop at the first locked mark, which takes the change up; without room the change is refused', () => {
    const locked = lockMark(three, 'c', true);
    expect(film(resizeSpan(locked, CONTEXT, from, to, 30))).toEqual([1, 2.25, 3]);
    expect(refusal(() => resizeSpan(locked, CONTEXT, from, to, 48)).message).toContain('leaves no room');
    expect(refusal(() => resizeSpan(lockMark(three, 'b', true), CONTEXT, from, to, 30)).message).toContain('locked');
  });

  it('a pause holds one moment, and is lengthened like any other span by its end', () => {
    const paused = insertPause(three, CONTEXT, from, 'a2', 12);
    expect(film(paused)).toEqual([1, 1.5, 2.5, 3.5]);
    const warp = warpFor(paused, CONTEXT);
    for (const t of [1, 1.2, 1.5]) expect(warp.sourceAt(t)).toBe(2);
    expect(refusal(() => insertPause(paused, CONTEXT, from, 'a3', 4)).message).toContain('held already');
  });
});

describe('settings that change around marks', () => {
  it('keep whole exposures whole at another rate, and others where they are', () => {
    const timing = { ...typeMark(three, CONTEXT, 'b', 60), holdSpans: [{ fromExposure: 25, on: 1 as const }] };
    const at25 = atRate(timing, 24, 25);
    for (const t of film(at25)) expect(t * 25).toBeCloseTo(Math.round(t * 25), 9);
    expect(Math.abs(film(at25)[1]! - 59 / 24)).toBeLessThanOrEqual(0.5 / 25);
    expect(at25.holdSpans).toEqual([{ fromExposure: 26, on: 1 }]);
    const between = { ...three, marks: [{ ...three.marks[0]!, filmS: 1.01 }] };
    expect(film(atRate(between, 24, 25))).toEqual([1.01]);
  });

  it('grow with the time scale and keep their place in the performance at another in point', () => {
    expect(film(atTimeScale(three, 1, 1.5))).toEqual([1.5, 3, 4.5]);
    expect(film(atInPoint(three, CONTEXT.base, 2.5))).toEqual([0.5, 1.5]);
    expect(film(atInPoint(three, CONTEXT.base, 0.5))).toEqual([1.5, 2.5, 3.5]);
  });
});

const anyEdit = fc.record({
  what: fc.constantFrom('place', 'move', 'type', 'lock', 'remove', 'rename', 'resize', 'lengthen', 'speed', 'pause'),
  which: fc.nat(9), other: fc.nat(9), atS: fc.double({ min: 0.5, max: 7.5, noNaN: true }), exposures: fc.integer({ min: -8, max: 90 }),
});

it('any row of edits keeps marks rising and apart, never moves a locked mark, and refuses with a word of its own', () => {
  fc.assert(fc.property(fc.array(anyEdit, { maxLength: 25 }), (edits) => {
    let timing = three;
    const passed: TimingSettings[] = [];
    edits.forEach(({ what, which, other, atS, exposures }, k) => {
      const id = timing.marks[which % Math.max(1, timing.marks.length)]?.id ?? 'none';
      const [one, two] = [timing.marks[which % Math.max(1, timing.marks.length)], timing.marks[other % Math.max(1, timing.marks.length)]];
      const ends = [mark(`f${k}`, one?.sourceS ?? 2), mark(`t${k}`, two?.sourceS ?? atS)] as const;
      const before = JSON.stringify(timing);
      try {
        const next = {
          place: () => placeMark(timing, CONTEXT, mark(`p${k}`, atS)),
          move: () => moveMark(timing, CONTEXT, id, atS),
          type: () => typeMark(timing, CONTEXT, id, exposures),
          lock: () => lockMark(timing, id, exposures > 20),
          remove: () => removeMark(timing, id),
          rename: () => renameMark(timing, id, 'jar'),
          resize: () => resizeSpan(timing, CONTEXT, ...ends, exposures),
          lengthen: () => lengthenSpan(timing, CONTEXT, ...ends, exposures),
          speed: () => speedSpan(timing, CONTEXT, ...ends, exposures / 20),
          pause: () => insertPause(timing, CONTEXT, ends[0], `e${k}`, exposures),
        }[what]();
        for (const { id: lockedId, locked, filmS } of timing.marks) {
          if (locked && what !== 'remove' && what !== 'lock') expect(next.marks.find((m) => m.id === lockedId)?.filmS).toBe(filmS);
        }
        passed.push(timing);
        timing = next;
      } catch (thrown) {
        if (!(thrown instanceof NudgebookError)) throw thrown;
        expect(thrown.code).toBe('bad-timing');
      }
      // the timing that was given is never touched, so taking an edit back is going back to it
      if (passed.at(-1) !== undefined && JSON.stringify(timing) !== before) expect(JSON.stringify(passed.at(-1))).toBe(before);
      timing.marks.forEach((m, i) => {
        const former = timing.marks[i - 1] ?? { filmS: 0, sourceS: 1 };
        expect(m.filmS).toBeGreaterThan(former.filmS);
        expect(m.sourceS).toBeGreaterThanOrEqual(former.sourceS);
      });
      expect(new Set(timing.marks.map((m) => m.id)).size).toBe(timing.marks.length);
    });
  }), { numRuns: 300 });
});
