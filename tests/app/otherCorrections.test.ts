import { describe, expect, it } from 'vitest';
import { otherCorrections } from '../../src/app/screens/poise/otherCorrections.ts';
import type { PoiseCorrection } from '../../src/balance/poiseSettings.ts';

const one = (id: string, applied: boolean): PoiseCorrection => ({ id, applied }) as PoiseCorrection;

describe('the plan beside the one on the screen', () => {
  it('has the correction that is looked at, besides those of the book', () => {
    expect(otherCorrections([one('a', true)], one('b', true), true)).toEqual({ which: 'after', corrections: [one('a', true), one('b', true)] });
    expect(otherCorrections([], one('b', true), false)?.which).toBe('after');
  });

  it('else has none of those applied, if the pose before is wanted', () => {
    expect(otherCorrections([one('a', true), one('b', false)], null, true)).toEqual({ which: 'before', corrections: [one('a', false), one('b', false)] });
    expect(otherCorrections([one('a', true)], null, false)).toBeNull();
  });

  it('is not made where nothing is applied', () => {
    expect(otherCorrections([], null, true)).toBeNull();
    expect(otherCorrections([one('a', false)], null, true)).toBeNull();
  });
});
