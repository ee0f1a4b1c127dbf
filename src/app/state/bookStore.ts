/**
 * The book that is open, with its undo history, and how far it has been saved. Every change of the book goes through
 * {@link editBook}; nothing else writes it.
 */
import { createStore } from 'zustand/vanilla';
import { type Book, newBook } from '../../book/document.ts';
import { edit, type History, redo, startHistory, undo } from '../../book/history.ts';
import type { PlanSettings } from '../../plan/settings.ts';
import { atRate, atTimeScale } from '../../timing/marks/settingsChange.ts';

/** What the head line says about saving. */
export type SaveState =
  | { readonly kind: 'saved' }
  | { readonly kind: 'saving' }
  | { readonly kind: 'failed'; readonly reason: string }
  /** The book is being written by another window of this browser; this one does not write until it takes over. */
  | { readonly kind: 'elsewhere' };

export interface BookState {
  readonly history: History;
  readonly save: SaveState;
}

export const bookStore = createStore<BookState>(() => ({ history: startHistory(newBook()), save: { kind: 'saved' } }));

export interface EditWords {
  /** Edits of one key that follow quickly are one undo step (a drag, typing). */
  readonly key?: string;
  /** What undo will say it takes back; without it the two books are compared. */
  readonly label?: string;
}

/** The book as it is now. */
export function currentBook(): Book {
  return bookStore.getState().history.present;
}

/** Makes an edit. A function that returns the same object makes none. */
export function editBook(change: (book: Book) => Book, words: EditWords = {}): void {
  const { history } = bookStore.getState();
  const next = edit(history, change(history.present), { atMs: performance.now(), ...words });
  if (next !== history) bookStore.setState({ history: next });
}

/** Changes some settings of the plan in one edit. */
export function editSettings(some: Partial<PlanSettings>, words: EditWords = {}): void {
  editBook((book) => {
    const changed = (Object.keys(some) as (keyof PlanSettings)[]).some((k) => !Object.is(book.settings[k], some[k]));
    return changed ? { ...book, settings: { ...book.settings, ...some }, timing: timingAt(book, some) } : book;
  }, words);
}

/** Marks and holds as they are meant once the settings around them are others. */
function timingAt({ timing, settings }: Book, some: Partial<PlanSettings>): Book['timing'] {
  let now = timing;
  if (some.rate !== undefined && some.rate !== settings.rate) now = atRate(now, settings.rate, some.rate);
  if (some.timeScale !== undefined && some.timeScale !== settings.timeScale) now = atTimeScale(now, settings.timeScale, some.timeScale);
  return now;
}

/** Marks a step (number from 1) as photographed, or no longer so. */
export function toggleShot(step: number): void {
  editBook((book) => {
    const has = book.shotSteps.includes(step);
    const shotSteps = has ? book.shotSteps.filter((s) => s !== step) : [...book.shotSteps, step].sort((a, b) => a - b);
    return { ...book, shotSteps };
  });
}

/** Takes the latest edit back. */
export function undoBook(): void {
  bookStore.setState((s) => ({ history: undo(s.history) }));
}

/** Does it again. */
export function redoBook(): void {
  bookStore.setState((s) => ({ history: redo(s.history) }));
}

/** Starts over with a book and no history: on loading the page only, everything later is an edit. */
export function startWithBook(book: Book): void {
  bookStore.setState({ history: startHistory(book) });
}
