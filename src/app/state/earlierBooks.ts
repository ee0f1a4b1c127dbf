/** Books that storage has put aside, as they can be looked through and opened again. */
import { type Book, parseBook } from '../../book/document.ts';
import type { AsideBook } from '../../book/storage.ts';
import { NudgebookError } from '../../errors.ts';
import { stopWork } from '../media/posing.ts';
import { editBook } from './bookStore.ts';
import { asideBooks } from './keeping.ts';
import { changesBench, say, session } from './session.ts';

export interface EarlierBook {
  readonly number: number;
  /** When it was put aside, milliseconds since 1970. */
  readonly asideAtMs: number;
  /** `null` where it does not open with this version. */
  readonly book: Book | null;
}

/** One that was put aside, read if it can be. */
export function earlierBook({ number, asideAtMs, book }: AsideBook): EarlierBook {
  try {
    return { number, asideAtMs, book: parseBook(book) };
  } catch (thrown) {
    // What does not open stays where it is and is listed as such; anything else is a fault of ours.
    if (thrown instanceof NudgebookError) return { number, asideAtMs, book: null };
    throw thrown;
  }
}

/** The books put aside in this browser, latest first; of several with the same title and take only the latest. */
export async function earlierBooks(): Promise<readonly EarlierBook[]> {
  return latestOfEach((await asideBooks()).map(earlierBook).reverse());
}

/** Of books with the same title and take the first; those that do not open stay, each by itself. */
export function latestOfEach(books: readonly EarlierBook[]): readonly EarlierBook[] {
  const seen = new Set<string>();
  return books.filter(({ number, book }) => {
    const key = book === null ? `number ${number}` : JSON.stringify([book.title, book.take?.hash ?? null]);
    return !seen.has(key) && seen.add(key);
  });
}

/** Opens one as an edit: undo brings the former one back. */
export function openEarlier(book: Book): void {
  if (changesBench(session.getState().job)) stopWork();
  editBook(() => book, { label: `opening of “${book.title}”` });
  session.setState({ helpOpen: false });
  say(`Opened the book ${book.title}.`);
}
