import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BOOK_FILE_MAX_CHARS, BOOK_FILE_VERSION, readBookFile, writeBookFile } from '../../src/book/bookFile.ts';
import { BOOK_VERSION, newBook } from '../../src/book/document.ts';
import { POSE_VERSION } from '../../src/book/poseVersion.ts';
import { bytesOf, marlaBook, marlaBookOfVersion1, twoFrameTrack } from './examples.ts';
import { errorOf } from './expectError.ts';

const text = writeBookFile(marlaBook(), twoFrameTrack());

/** The text with one top field replaced. */
function withTop(changes: Readonly<Record<string, unknown>>): string {
  return JSON.stringify({ ...(JSON.parse(text) as object), ...changes });
}

describe('book file', () => {
  test('comes back: book, track bit for bit, and which measurement made it', () => {
    const file = readBookFile(text);
    expect(file.book).toEqual(marlaBook());
    expect(bytesOf(file.track ?? twoFrameTrack())).toEqual(bytesOf(twoFrameTrack()));
    expect(file.track).not.toBeNull();
    expect(file.poseVersion).toBe(POSE_VERSION);
  });

  test('without a track, and a new book', () => {
    expect(readBookFile(writeBookFile(newBook(), null))).toEqual({ book: newBook(), track: null, poseVersion: null });
  });

  test('a track of another measurement keeps its name', () => {
    expect(readBookFile(writeBookFile(marlaBook(), twoFrameTrack(), 'an older one')).poseVersion).toBe('an older one');
  });

  test('a person can read it: one field a line, the book first, the track last', () => {
    expect(Object.keys(JSON.parse(text) as object)).toEqual(['format', 'version', 'book', 'poseVersion', 'track']);
    expect(text).toContain('\n    "title": "Marla reaches the jar",\n');
    expect(text.endsWith('}\n')).toBe(true);
  });

  test('every way of cutting it short is said as such', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: text.length - 2 }), (length) => {
        const error = errorOf(() => readBookFile(text.slice(0, length)));
        expect(error.code).toBe('bad-book');
        expect(error.message).toBe('The file ends too early: a part of it is missing.');
      }),
      { seed: 20264, numRuns: 300 },
    );
  });

  test('an escaped quote and brackets inside a text do not mislead the search for the end', () => {
    const book = { ...marlaBook(), notes: { '1': 'she said "reach {[" \\' } };
    const whole = writeBookFile(book, null);
    expect(readBookFile(whole).book).toEqual(book);
    expect(errorOf(() => readBookFile(whole.slice(0, -3))).message).toContain('ends too early');
    expect(errorOf(() => readBookFile(whole.replace('"title"', 'title'))).message).toContain('not JSON');
  });

  test('a byte order mark in front is forgiven', () => {
    expect(readBookFile(`\uFEFF${text}`).book).toEqual(marlaBook());
  });

  test.each<[string, string, string, string]>([
    ['nothing', '', 'file-empty', 'The file is empty.'],
    ['white space', ' \n', 'file-empty', 'The file is empty.'],
    ['not JSON', 'step,exposure\n1,1\n', 'bad-book', 'The file is not JSON, so it is not a book.'],
    ['JSON of another program', '{"nodes": [], "format": "scene"}', 'bad-book', 'belongs to another program'],
    ['a list', '[1]', 'bad-book', 'belongs to another program'],
    ['null', 'null', 'bad-book', 'belongs to another program'],
    ['a newer file', withTop({ version: BOOK_FILE_VERSION + 1, extra: 1 }), 'bad-book', 'saved by a newer Nudgebook: it has version 2'],
    ['a newer book', withTop({ book: { ...marlaBook(), version: BOOK_VERSION + 1, extra: 1 } }), 'bad-book', `made by a newer Nudgebook: it has version ${BOOK_VERSION + 1}`],
    ['no version', withTop({ version: undefined }), 'bad-book', 'The field version of the file is missing; allowed is 1.'],
    ['an unknown field', withTop({ camera: 1 }), 'bad-book', 'The file has a field Nudgebook does not know: camera.'],
    ['no book', withTop({ book: undefined }), 'bad-book', 'book'],
    ['a wrong value in the book', withTop({ book: { ...marlaBook(), title: 3 } }), 'bad-book', 'The field title of the book is 3'],
    ['a damaged track', withTop({ track: { format: 'nudgebook-track' } }), 'bad-track', 'of the track is missing'],
    ['a track without its take', withTop({ book: newBook() }), 'bad-book', 'lacks the take it was measured from'],
    ['a track without its measurement', withTop({ poseVersion: null }), 'bad-book', 'lacks the field poseVersion'],
  ])('%s', (_, given, code, words) => {
    const error = errorOf(() => readBookFile(given));
    expect(error.message).toContain(words);
    expect(error.code).toBe(code);
    expect(error.tip).not.toBe('');
  });

  test('a file over the cap is refused before it is parsed', () => {
    expect(errorOf(() => readBookFile(' '.repeat(BOOK_FILE_MAX_CHARS + 1))).message).toContain('201 million characters; a book has at most 200');
  });

  test('what would not open is not written', () => {
    expect(errorOf(() => writeBookFile({ ...marlaBook(), title: 'x'.repeat(201) }, null)).code).toBe('bad-book');
    expect(errorOf(() => writeBookFile(newBook(), twoFrameTrack())).code).toBe('bad-argument');
    const track = twoFrameTrack();
    expect(errorOf(() => writeBookFile(marlaBook(), { ...track, found: new Uint8Array(3) })).code).toBe('bad-track');
  });
});

describe('released files open for ever', () => {
  const folder = new URL('fixtures/', import.meta.url);
  const names = readdirSync(folder).filter((name) => /^file-v\d+\.nudgebook\.json$/.test(name));

  test('there is a fixture of every version', () => {
    expect(names.length).toBe(BOOK_FILE_VERSION);
  });

  test.each(names)('%s', (name) => {
    const file = readBookFile(readFileSync(new URL(name, folder), 'utf8'));
    expect(file.book).toEqual(marlaBookOfVersion1());
    expect(file.track).not.toBeNull();
    expect(bytesOf(file.track ?? twoFrameTrack())).toEqual(bytesOf(twoFrameTrack()));
  });
});

test('the pose version names the packages that are installed', () => {
  const manifest = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')) as { dependencies: Record<string, string> };
  expect(POSE_VERSION).toBe(`${manifest.dependencies['@mediapipe/pose']}/tasks-vision-${manifest.dependencies['@mediapipe/tasks-vision']}/image/640/2`);
});
