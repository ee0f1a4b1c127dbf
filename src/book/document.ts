/**
 * The book: everything a person set and made, as one document.
 *
 * Footage is not in it: a take is referenced by its content hash and linked again by choosing the file. Tracks are
 * kept beside it (see `storage.ts` and `bookFile.ts`), so that an edit saves kilobytes and not megabytes.
 */
import { DEFAULT_POISE, type PoiseSettings } from '../balance/poiseSettings.ts';
import { NudgebookError } from '../errors.ts';
import type { ClipFacts, RateVerdict } from '../footage/facts.ts';
import { NO_CORRECTIONS, type Corrections } from '../motion/corrections/corrections.ts';
import { DEFAULT_SETTINGS, type PlanSettings } from '../plan/settings.ts';
import type { ModelSize } from '../pose/track.ts';
import type { Armature } from '../puppet/armature.ts';
import { DEFAULT_PUPPET_SETTINGS, type PuppetSettings } from '../puppet/puppetSettings.ts';
import { DEFAULT_TIMING, type NamedTiming, type TimingSettings } from '../timing/timingSettings.ts';
import { BOOK_VERSION, migrate } from './migrations.ts';
import { quoted, refusal } from './refusal.ts';
import { bookSchema } from './schema.ts';

export { BOOK_VERSION } from './migrations.ts';
export { NOTE_MAX_CHARS, STEP_MAX, TITLE_MAX_CHARS } from './schema.ts';

/** A take as the book remembers it. */
export interface TakeRef {
  /** File name as the person knows it; for display only. */
  readonly name: string;
  readonly sizeBytes: number;
  /** Hex content hash; the take's identity. */
  readonly hash: string;
  /** Upright size, rotation applied. */
  readonly widthPx: number;
  readonly heightPx: number;
  readonly durationS: number;
  readonly frames: number;
  readonly rate: RateVerdict;
  /** Address on the app's own origin when it is a bundled clip, e.g. `reference-clips/one-leg-reach.webm`. */
  readonly address: string | null;
}

export interface Book {
  readonly format: 'nudgebook';
  readonly version: 3;
  readonly title: string;
  /** `null` until a take has been chosen. */
  readonly take: TakeRef | null;
  /** Size of the pose model the take is measured with. */
  readonly model: ModelSize;
  readonly settings: PlanSettings;
  /** What the person set by hand about this take; its track stays as measured. */
  readonly corrections: Corrections;
  /** `null` means the standard figure. */
  readonly armature: Armature | null;
  /** How the puppet follows, what is pinned, what moves by hand, where datums are read. */
  readonly puppet: PuppetSettings;
  /** Marks, hold pattern, pauses kept alive. */
  readonly timing: TimingSettings;
  /** Timings kept under a name. */
  readonly timingVersions: readonly NamedTiming[];
  /** What touches, is tied down and carried; corrections of the balance. */
  readonly poise: PoiseSettings;
  /** Steps already photographed: from 1, rising, none twice. */
  readonly shotSteps: readonly number[];
  /** Step number → note. */
  readonly notes: Readonly<Record<string, string>>;
}

/** An empty book with every setting at its default. */
export function newBook(): Book {
  return {
    format: 'nudgebook',
    version: BOOK_VERSION,
    title: 'Untitled',
    take: null,
    model: 'full',
    settings: DEFAULT_SETTINGS,
    corrections: NO_CORRECTIONS,
    armature: null,
    puppet: DEFAULT_PUPPET_SETTINGS,
    timing: DEFAULT_TIMING,
    timingVersions: [],
    poise: DEFAULT_POISE,
    shotSteps: [],
    notes: {},
  };
}

/**
 * The reference a book keeps of a clip.
 *
 * @param facts the clip as it was read
 * @param address own-origin address when it is a bundled clip
 */
export function takeRefOf(facts: ClipFacts, address: string | null = null): TakeRef {
  return {
    name: facts.name,
    sizeBytes: facts.sizeBytes,
    hash: facts.hash,
    widthPx: facts.widthPx,
    heightPx: facts.heightPx,
    durationS: facts.durationS,
    frames: facts.timesS.length,
    rate: facts.rate,
    address,
  };
}

/**
 * Reads any value as a book: tells whose document it is, brings it to this version, checks every field.
 *
 * @returns a new book; the value is not touched
 * @throws NudgebookError `bad-book` naming the field, its value and what is allowed
 */
export function parseBook(value: unknown): Book {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new NudgebookError('bad-book', `A book is an object, and this is ${quoted(value)}.`, 'Open a file that Nudgebook saved.');
  }
  const loose = value as Readonly<Record<string, unknown>>;
  if (loose['format'] !== 'nudgebook') {
    throw new NudgebookError(
      'bad-book',
      loose['format'] === undefined
        ? 'The field format of the book is missing; allowed is "nudgebook".'
        : `The field format of the book is ${quoted(loose['format'])}; allowed is "nudgebook".`,
      'It may belong to another program. Open a file that Nudgebook saved.',
    );
  }
  const current = migrate(loose);
  const result = bookSchema.safeParse(current);
  if (!result.success) {
    throw refusal('bad-book', 'the book', 'Put the field right in the file, or open an earlier copy of it.', result.error, current);
  }
  return result.data;
}
