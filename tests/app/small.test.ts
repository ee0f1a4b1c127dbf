/** The small pure parts of the window. */
import { describe, expect, it } from 'vitest';
import { parseNumber, writeNumber } from '../../src/app/fields/numberText.ts';
import { DEFAULT_PREFS, parsePrefs } from '../../src/app/look/prefs.ts';
import { askedClip, BUNDLED_CLIPS, DEMO_CLIP } from '../../src/app/media/bundledClips.ts';
import { columnWidths } from '../../src/app/screens/pace/columnWidths.ts';
import { groupsInView, sheetGroups } from '../../src/app/screens/sheet/columns.ts';
import { sizeWords, timeWords } from '../../src/app/screens/take/timeWords.ts';
import { screenOf } from '../../src/app/shell/address.ts';
import { rowOfTime } from '../../src/app/state/takeRows.ts';
import { fileNameOf } from '../../src/app/state/files.ts';
import { samplePlan, SAMPLE_JOINTS } from '../charts/samplePlan.ts';

describe('typed numbers', () => {
  const range = { min: 0.05, max: 20, mayBeEmpty: false };
  it('take a comma and a true minus', () => {
    expect(parseNumber(' 1,25 ', range)).toEqual({ kind: 'read', value: 1.25 });
    expect(parseNumber('\u22123', { min: -5, max: 5, mayBeEmpty: false })).toEqual({ kind: 'read', value: -3 });
  });
  it('are refused with the range in words', () => {
    for (const bad of ['abc', '', '21', '0', 'Infinity', '1e999']) {
      expect(parseNumber(bad, range)).toEqual({ kind: 'refused', why: 'a number from 0.05 to 20' });
    }
  });
  it('may be empty where that means something', () => {
    expect(parseNumber('', { ...range, mayBeEmpty: true })).toEqual({ kind: 'read', value: null });
  });
  it('are written without idle zeros', () => {
    expect(writeNumber(1, 3)).toBe('1');
    expect(writeNumber(29.970029, 3)).toBe('29.97');
  });
});

describe('kept preferences', () => {
  it('survive being kept', () => {
    const prefs = { rowPx: 12, red: true, joints: ['head'], parts: true, step: 17, units: 'in' as const };
    expect(parsePrefs(JSON.stringify(prefs))).toEqual(prefs);
  });
  it.each([null, '', '{', '7', '[]', '{"rowPx":"tall","joints":[1],"step":-4}'])('fall back to the defaults from %j', (text) => {
    expect(parsePrefs(text)).toEqual(DEFAULT_PREFS);
  });
  it('are drawn in to what can be shown', () => {
    expect(parsePrefs('{"rowPx":900}').rowPx).toBe(44);
  });
});

describe('addresses', () => {
  it('name a screen', () => {
    expect(screenOf('#/pace')).toBe('pace');
    expect(screenOf('#/stage')).toBe('take');
    expect(screenOf('')).toBe('take');
  });
  it('ask for a clip', () => {
    expect(askedClip('?demo')).toBe(DEMO_CLIP);
    expect(askedClip('?clip=squat')).toBe('squat');
    expect(askedClip('')).toBeUndefined();
    expect(BUNDLED_CLIPS.some((clip) => clip.name === DEMO_CLIP)).toBe(true);
  });
});

describe('the sheet', () => {
  it('has angle and turn of every joint that can be seen, and says which cannot', () => {
    const groups = sheetGroups(SAMPLE_JOINTS, false);
    expect(groups.map((g) => g.columns.map((c) => c.kind))).toEqual([['angle', 'turn'], ['unseen'], ['angle', 'turn'], ['angle', 'turn']]);
    expect(groups[1]?.meaning).toBe('cannot be seen');
  });
  it('adds the parts of a turn to balls only', () => {
    const groups = sheetGroups(SAMPLE_JOINTS, true);
    expect(groups.map((g) => g.columns.length)).toEqual([5, 1, 2, 2]);
    for (const g of groups) expect(g.widthPx).toBe(g.columns.reduce((sum, c) => sum + c.widthPx, 0));
  });
  it('adds the points that can be measured, with their readings where there are some', () => {
    const groups = sheetGroups(SAMPLE_JOINTS, false, ['leftHand tip', 'pelvis'], true);
    expect(groups.slice(4).map((g) => [g.title, g.columns.map((c) => c.kind), g.firstColumn])).toEqual([
      ['left hand tip', ['travel', 'way', 'height', 'mark'], 9], ['pelvis', ['travel', 'way', 'height', 'mark'], 13],
    ]);
    expect(sheetGroups(SAMPLE_JOINTS, false, ['pelvis'])[4]?.columns.length).toBe(2);
  });
});

describe('the columns of the sheet that are in view', () => {
  const groups = sheetGroups(SAMPLE_JOINTS, false);
  const [head, clavicle] = [groups[0]?.widthPx ?? 0, groups[1]?.widthPx ?? 0];
  it('are all of them where there is room', () => {
    expect(groupsInView(groups, 0, 9999)).toEqual({ first: 0, last: 3, fromPx: 0 });
  });
  it('begin with the one that is cut by the left edge and end with the one cut by the right', () => {
    expect(groupsInView(groups, head + 1, head + clavicle + 1)).toEqual({ first: 1, last: 2, fromPx: head });
    expect(groupsInView(groups, head, head + clavicle)).toEqual({ first: 1, last: 1, fromPx: head });
  });
  it('count their cells over the whole table', () => {
    expect(groups.map((g) => g.firstColumn)).toEqual([2, 4, 5, 7]);
  });
});

describe('the columns of the Pace screen', () => {
  it('share the room, within what can be read', () => {
    const six = columnWidths(960, 6);
    expect(six.anglePx + six.incrementPx + six.gapPx).toBe(160);
    const one = columnWidths(960, 1);
    expect(one.anglePx + one.incrementPx + one.gapPx).toBe(300);
    const many = columnWidths(960, 19);
    expect(many.anglePx + many.incrementPx + many.gapPx).toBe(152);
  });
});

describe('rows of moments', () => {
  it('put a step on its own row and what lies between in between', () => {
    const plan = samplePlan();
    expect(rowOfTime(plan, 0.5 + 3 / 12)).toBeCloseTo(3, 9);
    expect(rowOfTime(plan, 0.5 + 2.5 / 12)).toBeCloseTo(2.5, 9);
    expect(rowOfTime({ stepCount: 1, sourceTimeS: Float64Array.of(2) }, 7)).toBe(0);
  });
});

describe('words', () => {
  it('for times and sizes', () => {
    expect(timeWords(8.4)).toBe('8 s');
    expect(timeWords(125)).toBe('2 min 05 s');
    expect(timeWords(Number.NaN)).toBe('–');
    expect(sizeWords(703_451)).toBe('703 kB');
    expect(sizeWords(12_340_000)).toBe('12.3 MB');
  });
  it('for file names that every system takes', () => {
    expect(fileNameOf('Marla: jar / shelf?')).toBe('Marla jar shelf');
    expect(fileNameOf(' ... ')).toBe('Untitled');
    expect(fileNameOf('a\u0007b')).toBe('a b');
  });
});
