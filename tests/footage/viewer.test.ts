import { describe, expect, it } from 'vitest';
import { BitmapCache } from '../../src/footage/bitmapCache.ts';
import { BRING_ALONG_FRAMES, nextStep, READ_ON_FRAMES } from '../../src/footage/viewerPlan.ts';

class Picture {
  closed = 0;
  close(): void {
    this.closed += 1;
  }
}

describe('the store of pictures', () => {
  it('keeps within its budget by closing the longest unused', () => {
    const cache = new BitmapCache<Picture>(300);
    const [a, b, c, d] = [new Picture(), new Picture(), new Picture(), new Picture()];
    cache.set(1, a, 100);
    cache.set(2, b, 100);
    cache.set(3, c, 100);
    expect(cache.get(1)).toBe(a);
    cache.set(4, d, 100);
    // 2 was the longest unused, because 1 had been looked at since.
    expect([1, 2, 3, 4].map((i) => cache.has(i))).toEqual([true, false, true, true]);
    expect([a, b, c, d].map((p) => p.closed)).toEqual([0, 1, 0, 0]);
    expect(cache.bytes).toBe(300);
  });

  it('closes a picture that is replaced, and keeps count of the bytes', () => {
    const cache = new BitmapCache<Picture>(1000);
    const [old, young] = [new Picture(), new Picture()];
    cache.set(7, old, 400);
    cache.set(7, young, 250);
    expect(old.closed).toBe(1);
    expect(cache.get(7)).toBe(young);
    expect(cache.bytes).toBe(250);
  });

  it('keeps one picture, however large', () => {
    const cache = new BitmapCache<Picture>(10);
    const [a, b] = [new Picture(), new Picture()];
    cache.set(1, a, 100);
    expect(cache.get(1)).toBe(a);
    cache.set(2, b, 100);
    expect([a.closed, b.closed]).toEqual([1, 0]);
  });

  it('closes everything exactly once when cleared', () => {
    const cache = new BitmapCache<Picture>(1000);
    const pictures = [new Picture(), new Picture(), new Picture()];
    pictures.forEach((p, i) => cache.set(i, p, 10));
    cache.clear();
    expect(pictures.map((p) => p.closed)).toEqual([1, 1, 1]);
    expect(cache.bytes).toBe(0);
    expect(cache.get(0)).toBeUndefined();
  });
});

describe('what the viewer decodes next', () => {
  it('nothing, when nothing is wanted', () => {
    expect(nextStep([], 5)).toEqual({ kind: 'idle' });
  });

  it('reads on to a frame a little ahead', () => {
    expect(nextStep([10], 10)).toEqual({ kind: 'read-on' });
    expect(nextStep([10 + READ_ON_FRAMES], 10)).toEqual({ kind: 'read-on' });
  });

  it('jumps to a frame far ahead, behind, or when nothing is open', () => {
    expect(nextStep([11 + READ_ON_FRAMES], 10)).toEqual({ kind: 'jump', first: 11 + READ_ON_FRAMES });
    expect(nextStep([9], 10)).toEqual({ kind: 'jump', first: 9 });
    expect(nextStep([0], undefined)).toEqual({ kind: 'jump', first: 0 });
  });

  it('brings along wanted frames just before the urgent one: stepping backwards', () => {
    expect(nextStep([40, 39, 38, 37, 30], 60)).toEqual({ kind: 'jump', first: 37 });
  });

  it('does not begin too far before the urgent one', () => {
    const all = Array.from({ length: 100 }, (_, i) => 100 - i);
    expect(nextStep(all, undefined)).toEqual({ kind: 'jump', first: 100 - BRING_ALONG_FRAMES });
  });
});
