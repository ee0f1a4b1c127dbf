/**
 * Undo and redo of a book, as pure data: every edit gives a new history, nothing is changed in place.
 *
 * The clock comes in as an argument. Edits with the same key that follow each other quickly (a drag, typing) become
 * one undo step, so that one undo takes back one thing a person did.
 */
import { describeChange } from './describeChange.ts';
import type { Book } from './document.ts';

/** Longest pause between two edits of one drag, in milliseconds; chosen by feel, no source. */
export const COALESCE_MS = 800;
/** Keys that begin so are of one drag each: their edits are one undo step, however long the hand rests in between. */
export const HELD_KEY = 'held ';
/** How many edits can be taken back; the oldest are let go beyond it. Books share what did not change, so this is cheap. */
export const HISTORY_LIMIT = 500;

/** A book to go back or forward to, and what the edit between it and its neighbour did. */
export interface HistoryStep {
  readonly book: Book;
  readonly label: string;
}

export interface History {
  /** Oldest first. `past[i].label` names the edit that led away from `past[i].book`. */
  readonly past: readonly HistoryStep[];
  readonly present: Book;
  /** Next first. `future[i].label` names the edit that leads to `future[i].book`. */
  readonly future: readonly HistoryStep[];
  /** The latest edit, if the next one may still join it. */
  readonly joinable: { readonly key: string; readonly atMs: number } | null;
}

export interface EditOptions {
  /** Edits with the same key within {@link COALESCE_MS} of each other become one undo step; without it, none do. */
  readonly key?: string;
  /** When the edit happened, in milliseconds of any clock that only goes forward. */
  readonly atMs: number;
  /** What the edit did, e.g. `rate 24 → 12`; without it the two books are compared. Of joined edits the latest is kept. */
  readonly label?: string;
}

/** A history that begins with this book. */
export function startHistory(book: Book): History {
  return { past: [], present: book, future: [], joinable: null };
}

/**
 * Makes `next` the present. What had been undone is let go. An edit that gives the very same object is none.
 *
 * @param limit how many edits are kept; given only by tests
 */
export function edit(history: History, next: Book, options: EditOptions, limit = HISTORY_LIMIT): History {
  if (next === history.present) return history;
  const joinable = options.key === undefined ? null : { key: options.key, atMs: options.atMs };
  const last = history.past.at(-1);
  if (last !== undefined && joins(history.joinable, options)) {
    const label = options.label ?? describeChange(last.book, next);
    return { past: [...history.past.slice(0, -1), { book: last.book, label }], present: next, future: [], joinable };
  }
  const label = options.label ?? describeChange(history.present, next);
  const past = [...history.past, { book: history.present, label }];
  return { past: past.length > limit ? past.slice(past.length - limit) : past, present: next, future: [], joinable };
}

function joins(before: History['joinable'], options: EditOptions): boolean {
  if (before === null || options.key !== before.key) return false;
  if (options.key.startsWith(HELD_KEY)) return true;
  const pauseMs = options.atMs - before.atMs;
  // A clock that went backwards says nothing about the pause, so it joins nothing.
  return pauseMs >= 0 && pauseMs <= COALESCE_MS;
}

/** Takes the latest edit back; without one, the history as it is. The next edit starts an undo step of its own. */
export function undo(history: History): History {
  const step = history.past.at(-1);
  if (step === undefined) return history;
  return {
    past: history.past.slice(0, -1),
    present: step.book,
    future: [{ book: history.present, label: step.label }, ...history.future],
    joinable: null,
  };
}

/** Does the edit that was taken back again; without one, the history as it is. */
export function redo(history: History): History {
  const step = history.future[0];
  if (step === undefined) return history;
  return {
    past: [...history.past, { book: history.present, label: step.label }],
    present: step.book,
    future: history.future.slice(1),
    joinable: null,
  };
}

/** Whether there is an edit to take back. */
export function canUndo(history: History): boolean {
  return history.past.length > 0;
}

/** Whether there is an edit to do again. */
export function canRedo(history: History): boolean {
  return history.future.length > 0;
}

/** What {@link undo} would take back, e.g. `rate 24 → 12`, or `null`. */
export function undoLabel(history: History): string | null {
  return history.past.at(-1)?.label ?? null;
}

/** What {@link redo} would do again, or `null`. */
export function redoLabel(history: History): string | null {
  return history.future[0]?.label ?? null;
}
