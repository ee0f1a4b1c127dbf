import { expect, test } from 'vitest';
import { matchesTake, type ComparableFacts, type TakeMatch } from '../../src/book/relink.ts';
import { marlaBook } from './examples.ts';

const take = marlaBook().take;
if (take === null) throw new Error('the example has a take');

const facts: ComparableFacts = {
  name: 'renamed.webm', sizeBytes: 512_345, widthPx: 640, heightPx: 720, durationS: 3.2, timesS: Float64Array.from({ length: 96 }, (_, i) => i / 30),
};

function sentence(match: TakeMatch): string {
  if (match.kind === 'same') return 'same';
  expect(match.error.code).toBe('wrong-footage');
  expect(match.error.tip).not.toBe('');
  return match.error.message;
}

test('the same content is the same take, under whatever name', () => {
  expect(matchesTake(take, '3f5a9c0e11d27b84', facts)).toEqual({ kind: 'same' });
  expect(matchesTake(take, '3F5A9C0E11D27B84', facts)).toEqual({ kind: 'same' });
});

test('another hash is another take, though every fact agrees', () => {
  expect(sentence(matchesTake(take, '0000000000000000', facts))).toBe(
    '“renamed.webm” is not the take of this book, “one-leg-reach.webm”: its content is not the same.',
  );
});

test('the sentence says in what it differs', () => {
  const other = { ...facts, sizeBytes: 9, widthPx: 720, heightPx: 640, durationS: 3.3, timesS: Float64Array.of(0, 1) };
  expect(sentence(matchesTake(take, '0000000000000000', other))).toBe(
    '“renamed.webm” is not the take of this book, “one-leg-reach.webm”: 9 bytes instead of 512345, ' +
      '720 × 640 pixels instead of 640 × 720, 2 frames instead of 96, 3.300 s instead of 3.200 s.',
  );
});

test('the same hash with another size in bytes is not trusted: a hash may be of a part of the file', () => {
  expect(matchesTake(take, take.hash, { ...facts, sizeBytes: 1 }).kind).toBe('different');
});
