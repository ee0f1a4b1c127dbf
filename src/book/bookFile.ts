/**
 * The book as one file, `NAME.nudgebook.json`: the safe copy, to keep, send and open anywhere.
 *
 * The book comes first, so that a person who opens the file in a text editor can read it; the track comes last.
 * Browser storage can vanish; this file is the one copy that is the person's own.
 */
import { NudgebookError } from '../errors.ts';
import type { Track } from '../pose/track.ts';
import { parseBook, type Book } from './document.ts';
import { endsTooEarly } from './jsonEnd.ts';
import { POSE_VERSION } from './poseVersion.ts';
import { quoted, refusal } from './refusal.ts';
import { fields, textUpTo } from './schemaParts.ts';
import { decodeTrack, encodeTrack } from './trackCodec.ts';
import { z } from './zod.ts';

export const BOOK_FILE_VERSION = 1;
export const BOOK_FILE_ENDING = '.nudgebook.json';
/**
 * Longest file, in UTF-16 units: over 40 minutes of footage at 60 frames a second, and well below the
 * longest string a browser can hold. Compare a file's size with it before reading the file.
 */
export const BOOK_FILE_MAX_CHARS = 200_000_000;

/** What a file held. */
export interface BookFile {
  readonly book: Book;
  readonly track: Track | null;
  /** Which measurement made the track (see `poseVersion.ts`); `null` without a track. */
  readonly poseVersion: string | null;
}

const TIP = 'Choose a file that ends in .nudgebook.json, as Nudgebook saved it.';
const COPY_TIP = 'Open another copy of the file, or save it again from the window it came from.';

/**
 * The text of the file, ending with a line break. The book is checked first, so that what was saved also opens.
 *
 * @param track the track of the book's take, or `null` to leave it out
 * @param poseVersion which measurement made the track, when it was not this program's own
 * @throws NudgebookError `bad-book`, `bad-track`, or `bad-argument` for a track without a take or a file over the cap
 */
export function writeBookFile(book: Book, track: Track | null, poseVersion: string = POSE_VERSION): string {
  const checked = parseBook(book);
  if (track !== null && checked.take === null) {
    throw new NudgebookError('bad-argument', 'A track without its take cannot be saved.', 'Choose the take first.');
  }
  const text = `${JSON.stringify(
    {
      format: 'nudgebook-file',
      version: BOOK_FILE_VERSION,
      book: checked,
      poseVersion: track === null ? null : poseVersion,
      track: track === null ? null : encodeTrack(track),
    },
    null,
    2,
  )}\n`;
  if (text.length > BOOK_FILE_MAX_CHARS) {
    throw new NudgebookError(
      'bad-argument',
      `The file would have ${megabytes(text.length)}; allowed are ${megabytes(BOOK_FILE_MAX_CHARS)}.`,
      'Save the book without its track; the track can be made again from the footage.',
    );
  }
  return text;
}

const fileSchema = fields({
  format: z.literal('nudgebook-file', { error: '"nudgebook-file"' }),
  version: z.literal(BOOK_FILE_VERSION, { error: String(BOOK_FILE_VERSION) }),
  book: z.unknown(),
  poseVersion: textUpTo(200).nullable(),
  track: z.unknown(),
});

/**
 * Reads the text of a file.
 *
 * @throws NudgebookError `file-empty`; `bad-book` for what is not JSON, is cut short, is another program's, is newer or
 * holds a value that is not allowed; `bad-track` for a damaged track
 */
export function readBookFile(text: string): BookFile {
  const json = parseJson(text);
  if (typeof json !== 'object' || json === null || !('format' in json) || json.format !== 'nudgebook-file') {
    throw new NudgebookError('bad-book', 'This is JSON, but not a Nudgebook file: it belongs to another program.', TIP);
  }
  const version = 'version' in json ? json.version : undefined;
  if (typeof version === 'number' && version > BOOK_FILE_VERSION) {
    throw new NudgebookError(
      'bad-book',
      `This file was saved by a newer Nudgebook: it has version ${quoted(version)}, and this one reads up to version ${BOOK_FILE_VERSION}.`,
      'Open it with the newer Nudgebook, or reload this page to get the newest one.',
    );
  }
  const result = fileSchema.safeParse(json);
  if (!result.success) throw refusal('bad-book', 'the file', COPY_TIP, result.error, json);
  const { book: bookValue, track: trackValue, poseVersion } = result.data;
  const book = parseBook(bookValue);
  if (trackValue === null) return { book, track: null, poseVersion: null };
  const track = decodeTrack(trackValue);
  if (book.take === null || poseVersion === null) {
    const lacks = book.take === null ? 'the take it was measured from' : 'the field poseVersion';
    throw new NudgebookError('bad-book', `The file has a track but lacks ${lacks}.`, COPY_TIP);
  }
  return { book, track, poseVersion };
}

function parseJson(text: string): unknown {
  if (text.length > BOOK_FILE_MAX_CHARS) {
    throw new NudgebookError(
      'bad-book',
      `The file has ${megabytes(text.length)}; a book has at most ${megabytes(BOOK_FILE_MAX_CHARS)}.`,
      TIP,
    );
  }
  // Some editors put a byte order mark in front when a person saves the file there.
  const body = text.startsWith('\uFEFF') ? text.slice(1) : text;
  if (body.trim() === '') throw new NudgebookError('file-empty', 'The file is empty.', TIP);
  try {
    return JSON.parse(body);
  } catch (cause) {
    if (endsTooEarly(body)) {
      throw new NudgebookError('bad-book', 'The file ends too early: a part of it is missing.', COPY_TIP, cause);
    }
    throw new NudgebookError('bad-book', 'The file is not JSON, so it is not a book.', TIP, cause);
  }
}

function megabytes(chars: number): string {
  return `${Math.ceil(chars / 1e6)} million characters`;
}
