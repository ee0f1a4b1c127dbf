/**
 * How a book of an older version becomes one of this version, one numbered step at a time.
 *
 * A change of the document: raise BOOK_VERSION, add `{ from, why, up }`, leave the older fixtures where they are.
 */
import { NudgebookError } from '../errors.ts';
import { NO_CORRECTIONS } from '../motion/corrections/corrections.ts';
import { DEFAULT_POISE } from '../balance/poiseSettings.ts';
import { DEFAULT_PUPPET_SETTINGS } from '../puppet/puppetSettings.ts';
import { DEFAULT_TIMING } from '../timing/timingSettings.ts';
import { quoted } from './refusal.ts';

export const BOOK_VERSION = 3;

/** A document before its schema has been checked. */
export type Loose = Readonly<Record<string, unknown>>;

export interface Migration {
  /** The version it takes; it gives `from + 1`. */
  readonly from: number;
  /** What changed and why, for the next person. */
  readonly why: string;
  /** Makes a new document; the one given is not touched. The version number is set by {@link migrate}. */
  readonly up: (book: Loose) => Loose;
}

export const MIGRATIONS: readonly Migration[] = [
  {
    from: 1,
    why: 'Corrections by hand, and how the puppet follows, are kept with the book. (An armature of version 1 is brought up where it is read.) '
      + 'There are two smoothers; what was planned with the one stays with it.',
    up: (book) => ({
      ...book, corrections: NO_CORRECTIONS, puppet: DEFAULT_PUPPET_SETTINGS, settings: withSmoother(book['settings']),
    }),
  },
  {
    from: 2,
    why: 'Timing by hand, timings kept under a name, and what is set for the balance are kept with the book.',
    up: (book) => ({ ...book, timing: DEFAULT_TIMING, timingVersions: [], poise: DEFAULT_POISE }),
  },
];

function withSmoother(settings: unknown): unknown {
  return typeof settings === 'object' && settings !== null ? { ...settings, smoother: 'butterworth' } : settings;
}

/**
 * Brings a document to the current version. The result still has to pass the schema.
 *
 * @param book an object with a `version`
 * @param migrations, current given only by tests
 * @throws NudgebookError `bad-book` when the version is none, or newer than this program
 */
export function migrate(book: Loose, migrations: readonly Migration[] = MIGRATIONS, current = BOOK_VERSION): Loose {
  const version = book['version'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    throw new NudgebookError(
      'bad-book',
      version === undefined
        ? `The field version of the book is missing; allowed is a whole number from 1 to ${current}.`
        : `The field version of the book is ${quoted(version)}; allowed is a whole number from 1 to ${current}.`,
      'Open a file that Nudgebook saved.',
    );
  }
  if (version > current) {
    throw new NudgebookError(
      'bad-book',
      `This book was made by a newer Nudgebook: it has version ${version}, and this one reads up to version ${current}.`,
      'Open it with the newer Nudgebook, or reload this page to get the newest one.',
    );
  }
  let at = version;
  let moved = book;
  while (at < current) {
    const step = migrations.find((migration) => migration.from === at);
    if (step === undefined) {
      throw new NudgebookError('internal', `Nudgebook has no way from book version ${at} to ${at + 1}.`, 'Report this; your book is not changed.');
    }
    moved = { ...step.up(moved), version: at + 1 };
    at += 1;
  }
  return moved;
}
