import { beforeEach, describe, expect, it } from 'vitest';
import { currentBook, startWithBook, undoBook } from '../../src/app/state/bookStore.ts';
import { earlierBook, latestOfEach, openEarlier } from '../../src/app/state/earlierBooks.ts';
import { session } from '../../src/app/state/session.ts';
import { newBook } from '../../src/book/document.ts';

const aside = { number: 3, reason: 'another-window', revision: 7, asideAtMs: 1e12 } as const;

beforeEach(() => startWithBook(newBook()));

describe('earlier books', () => {
  it('are read where they can be, and listed all the same where not', () => {
    const book = { ...newBook(), title: 'Night bakery' };
    expect(earlierBook({ ...aside, book })).toEqual({ number: 3, asideAtMs: 1e12, book });
    expect(earlierBook({ ...aside, book: { format: 'something else' } }).book).toBeNull();
    expect(earlierBook({ ...aside, book: undefined }).book).toBeNull();
  });

  it('of one title and take only the latest is listed', () => {
    const book = { ...newBook(), title: 'Night bakery' };
    const list = [{ number: 4, asideAtMs: 4, book }, { number: 3, asideAtMs: 3, book: null }, { number: 2, asideAtMs: 2, book: { ...book, notes: { 1: 'x' } } }, { number: 1, asideAtMs: 1, book: null }];
    expect(latestOfEach(list).map(({ number }) => number)).toEqual([4, 3, 1]);
  });

  it('open as an edit that can be taken back', () => {
    session.setState({ helpOpen: true });
    openEarlier({ ...newBook(), title: 'Night bakery' });
    expect(currentBook().title).toBe('Night bakery');
    expect(session.getState().helpOpen).toBe(false);
    undoBook();
    expect(currentBook().title).toBe(newBook().title);
  });
});
