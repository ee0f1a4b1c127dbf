import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { BOOK_VERSION, newBook, parseBook, takeRefOf } from '../../src/book/document.ts';
import { migrate, MIGRATIONS, type Migration } from '../../src/book/migrations.ts';
import { errorOf } from './expectError.ts';
import { marlaBook, marlaBookOfVersion1, marlaBookOfVersion2, twoFrameTrack } from './examples.ts';

/** A copy with the value at a dotted path replaced, or left out where it is `undefined`. */
function changed(at: object, path: readonly string[], value: unknown): object {
  const [name, ...rest] = path;
  return Object.fromEntries(
    [...Object.entries(at), ...(name === undefined || name in at ? [] : [[name, undefined] as const])]
      .map(([key, old]) => [key, key !== name ? old : rest.length === 0 ? value : changed(old as object, rest, value)])
      .filter(([key, now]) => key !== name || now !== undefined),
  );
}

/** The example with one field replaced, or left out where the value is `undefined`. */
function withField(path: string, value: unknown): unknown {
  return changed(marlaBook(), path.split('.'), value);
}

describe('parseBook', () => {
  test('a new book and a full one come back equal, as new objects', () => {
    for (const book of [newBook(), marlaBook()]) {
      const parsed = parseBook(structuredClone(book));
      expect(parsed).toEqual(book);
      expect(parsed).not.toBe(book);
    }
  });

  test.each([
    ['settings.rate', 900, 'The field settings.rate of the book is 900; allowed is a number from 1 to 240 exposures a second.'],
    ['settings.rate', Number.NaN, 'The field settings.rate of the book is NaN; allowed is a number from 1 to 240 exposures a second.'],
    ['settings.rate', '24', 'The field settings.rate of the book is "24"; allowed is a number from 1 to 240 exposures a second.'],
    ['settings.rate', undefined, 'The field settings.rate of the book is missing; allowed is a number from 1 to 240 exposures a second.'],
    ['settings.on', 5, 'The field settings.on of the book is 5; allowed is one of 1, 2, 3, 4.'],
    ['settings.cutoffHz', -1, 'The field settings.cutoffHz of the book is -1; allowed is a number from 0 to 30 Hz.'],
    ['settings.timeScale', 0, 'The field settings.timeScale of the book is 0; allowed is a number from 0.05 to 20.'],
    ['settings.captureFactor', Infinity, 'The field settings.captureFactor of the book is Infinity; allowed is a number from 0.1 to 100.'],
    ['settings.inS', -0.1, 'The field settings.inS of the book is -0.1; allowed is seconds from 0 up, or null for the end of the take.'],
    ['settings.mirror', 1, 'The field settings.mirror of the book is 1; allowed is true or false.'],
    ['settings', null, 'The field settings of the book is null; allowed is an object with the fields inS, outS, captureFactor, mirror, cutoffHz, smoother, rate, on, timeScale.'],
    ['model', 'huge', 'The field model of the book is "huge"; allowed is one of lite, full, heavy.'],
    ['title', 7, 'The field title of the book is 7; allowed is a text of at most 200 characters.'],
    ['take.hash', 'XYZ', 'The field take.hash of the book is "XYZ"; allowed is a content hash of 8 to 128 lower-case hex digits.'],
    ['take.frames', 1.5, 'The field take.frames of the book is 1.5; allowed is a whole number from 1 to 9007199254740991.'],
    ['take.rate.kind', 'steady', 'The field take.rate.kind of the book is "steady"; allowed is a rate verdict whose kind is constant, variable or unknown.'],
    ['take.rate.minFps', 0, 'The field take.rate.minFps of the book is 0; allowed is a number above 0 (frames a second).'],
    ['armature', undefined, 'The field armature of the book cannot be read. The armature can’t be used: it must be an object'],
    ['armature.totalMassG', 0, 'The field armature of the book cannot be read. The armature can’t be used: totalMassG must be a number from 0.1'],
    ['armature.joints', [{ name: 'head', parent: null, child: 'head', kind: 'rope' }], 'joints[0].kind (head) must be one of ball, hinge, swivel, wire, screw, and is “rope”'],
    ['armature.joints', [{ name: 'head', parent: null, child: 'head' }, { name: 'head', parent: 'head', child: 'pelvis' }], 'joints[1].name repeats “head”'],
    ['puppet', undefined, 'The field puppet of the book is missing; allowed is an object with the fields drives, curves, pins'],
    ['puppet.datum.everySteps', '12', 'The field puppet.datum.everySteps of the book is "12"; allowed is a whole number from 0 to 10000.'],
    ['armature.colour', 'red', 'it has the unknown field “colour”'],
    ['corrections', undefined, 'The field corrections of the book is missing; allowed is an object with the fields camera, placed, angles, depthFlips, swaps, contacts, slate.'],
    ['corrections.placed', [{ timeS: 1, landmark: 'elbow', x: 0, y: 0 }], 'The field corrections.placed[0].landmark of the book is "elbow"; allowed is one of nose, leftEyeInner'],
    ['shotSteps', [1, 0], 'The field shotSteps[1] of the book is 0; allowed is a whole number from 1 to 1000000.'],
    ['shotSteps', [2, 1], 'The field shotSteps of the book is [2,1]; allowed is a list of step numbers, rising, none twice.'],
    ['shotSteps', [1, 1], 'The field shotSteps of the book is [1,1]; allowed is a list of step numbers, rising, none twice.'],
    ['notes', { '1': 5 }, 'The field notes["1"] of the book is 5; allowed is a text of at most 10000 characters.'],
    ['notes', { one: 'x' }, 'The field notes of the book has the key "one"; allowed is a step number from 1 to 1000000.'],
    ['notes', { '01': 'x' }, 'has the key "01"'],
    ['notes', { '1000001': 'x' }, 'has the key "1000001"'],
    ['notes', JSON.parse('{"__proto__": "x"}'), 'allowed is an object of notes by step number'],
    ['notes', [], 'The field notes of the book is []; allowed is an object of notes by step number.'],
    ['settings.speed', 2, 'The book has a field Nudgebook does not know: settings.speed.'],
    ['extra', 2, 'The book has a field Nudgebook does not know: extra.'],
    ['format', 'other', 'The field format of the book is "other"; allowed is "nudgebook".'],
    ['format', undefined, 'The field format of the book is missing'],
    ['version', undefined, 'The field version of the book is missing; allowed is a whole number from 1 to 3.'],
    ['version', 0, 'The field version of the book is 0; allowed is a whole number from 1 to 3.'],
    ['version', '1', 'The field version of the book is "1"'],
    ['version', 4, 'This book was made by a newer Nudgebook: it has version 4, and this one reads up to version 3.'],
  ])('%s = %j is refused in words', (path, value, words) => {
    const error = errorOf(() => parseBook(withField(path, value)));
    expect(error.code).toBe('bad-book');
    expect(error.message).toContain(words);
    expect(error.tip).not.toBe('');
  });

  test.each([
    'https://elsewhere.example/clip.webm', '//elsewhere.example/clip.webm', '/clip.webm', '../clip.webm', 'a/../../clip.webm',
    'javascript:alert(1)', 'a\\b.webm', 'clip.webm?x=1', 'clip.webm#x', 'a//b.webm', '', 'a b.webm', '%2e%2e/clip.webm',
  ])('the address %j of a take is refused: a book must not make the app fetch from elsewhere', (address) => {
    const error = errorOf(() => parseBook(withField('take.address', address)));
    expect(error.message).toContain('The field take.address of the book is');
  });

  test.each([null, undefined, 5, 'book', [], [marlaBook()]])('%j is no book', (value) => {
    expect(errorOf(() => parseBook(value)).code).toBe('bad-book');
  });

  test('several wrong fields: one is spelled out, the rest counted', () => {
    const book = { ...marlaBook(), title: 5, model: 'x', shotSteps: 'none' };
    expect(errorOf(() => parseBook(book)).message).toMatch(/title.*\(2 more like this\.\)$/);
  });

  test('a long wrong value is cut in the sentence', () => {
    expect(errorOf(() => parseBook(withField('model', 'x'.repeat(5000)))).message.length).toBeLessThan(200);
  });

  test('in and out point crossed: the book opens, so that the person can put it right in it', () => {
    expect(parseBook(withField('settings.inS', 3)).settings.inS).toBe(3);
  });
});

test('takeRefOf keeps what names a take', () => {
  const take = takeRefOf({
    name: 'jar.mp4', sizeBytes: 9, hash: 'abcdef0123', mimeType: 'video/mp4', codec: 'avc1', widthPx: 3, heightPx: 4, rotationDeg: 90,
    timesS: twoFrameTrack().timesS, durationS: 0.1, rate: { kind: 'unknown' }, warnings: ['x'],
  });
  expect(take).toEqual({
    name: 'jar.mp4', sizeBytes: 9, hash: 'abcdef0123', widthPx: 3, heightPx: 4, durationS: 0.1, frames: 2, rate: { kind: 'unknown' }, address: null,
  });
  expect(parseBook({ ...newBook(), take }).take).toEqual(take);
});

describe('released versions open for ever', () => {
  const folder = new URL('fixtures/', import.meta.url);
  const names = readdirSync(folder).filter((name) => /^book-v\d+\.json$/.test(name));

  test('there is a fixture of every version', () => {
    expect(names.sort()).toEqual(Array.from({ length: BOOK_VERSION }, (_, i) => `book-v${i + 1}.json`).sort());
  });

  test.each(names)('%s', (name) => {
    const book = parseBook(JSON.parse(readFileSync(new URL(name, folder), 'utf8')));
    const older = { 'book-v1.json': marlaBookOfVersion1, 'book-v2.json': marlaBookOfVersion2 }[name];
    expect(book).toEqual((older ?? marlaBook)());
  });
});

describe('migrations', () => {
  test('stand in a row from 1, each going one version up', () => {
    expect(MIGRATIONS.map((migration) => migration.from)).toEqual(Array.from({ length: BOOK_VERSION - 1 }, (_, i) => i + 1));
  });

  const chain: readonly Migration[] = [
    { from: 2, why: 'a test', up: (book) => ({ ...book, c: `${String(book['b'])}+3` }) },
    { from: 1, why: 'a test', up: (book) => ({ ...book, b: `${String(book['a'])}+2` }) },
  ];

  test('run in the order of their numbers and leave the given document alone', () => {
    const given = Object.freeze({ version: 1, a: 'one' });
    expect(migrate(given, chain, 3)).toEqual({ version: 3, a: 'one', b: 'one+2', c: 'one+2+3' });
  });

  test('begin at the version of the document', () => {
    expect(migrate({ version: 2, b: 'x' }, chain, 3)).toEqual({ version: 3, b: 'x', c: 'x+3' });
    expect(migrate({ version: 3, b: 'x' }, chain, 3)).toEqual({ version: 3, b: 'x' });
  });

  test('a missing one is said, not skipped', () => {
    expect(errorOf(() => migrate({ version: 1 }, chain, 4)).code).toBe('internal');
  });
});
