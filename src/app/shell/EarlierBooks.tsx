/** Books that were put aside in this browser, and the way back to each. */
import { type ReactElement, useEffect, useState } from 'react';
import { type EarlierBook, earlierBooks, openEarlier } from '../state/earlierBooks.ts';
import { attempt } from '../state/problems.ts';
import { useBook, useSession } from '../state/use.ts';

/** Day and minute in the person's own way of writing them. */
const WHEN = new Intl.DateTimeFormat(undefined, { dateStyle: 'medium', timeStyle: 'short' });

export function EarlierBooks(): ReactElement | null {
  const [books, setBooks] = useState<readonly EarlierBook[]>([]);
  const ready = useSession((s) => s.ready);
  // The list grows when another take takes the place of the book's own.
  const takeHash = useBook((b) => b.take?.hash);
  useEffect(() => {
    if (!ready) return undefined;
    let shown = true;
    attempt(async () => {
      const found = await earlierBooks();
      if (shown) setBooks(found);
    });
    return () => {
      shown = false;
    };
  }, [ready, takeHash]);
  if (books.length === 0) return null;
  return (
    <section className="others">
      <h3>Earlier books</h3>
      <ul>
        {books.map(({ number, asideAtMs, book }) => (
          <li key={number}>
            {book === null ? <em>does not open</em> : <button type="button" title={book.title} onClick={() => openEarlier(book)}>{book.title.trim() || 'Untitled'}</button>}
            <span>{book === null ? '' : `${book.take?.name ?? 'no take'}, `}put aside {WHEN.format(asideAtMs)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
