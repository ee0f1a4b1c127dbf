/** A book with a long made-up take in it, to be opened in the app as a file: no footage, no posing. */
import { type Book, newBook } from '../../src/book/document.ts';
import { writeBookFile } from '../../src/book/bookFile.ts';
import { syntheticTrack } from './syntheticTrack.ts';

/**
 * Text of the book file.
 *
 * @param set what else the book holds
 */
export function longTakeBook(durationS: number, fps: number, set: (book: Book) => Book = (book) => book): string {
  const track = syntheticTrack(durationS, fps);
  const book = newBook();
  return writeBookFile(set({
    ...book,
    title: 'Long take',
    take: {
      name: 'long.webm', sizeBytes: 1, hash: '0123456789abcdef', widthPx: track.widthPx, heightPx: track.heightPx,
      durationS, frames: track.timesS.length, rate: { kind: 'constant', fps }, address: null,
    },
    model: track.model,
  }), track);
}
