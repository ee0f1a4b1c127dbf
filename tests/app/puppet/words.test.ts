import { describe, expect, it } from 'vitest';
import { flagRuns, flagsAt } from '../../../src/app/screens/puppet/moves/flags.ts';
import { depthWords, hourWords, keyWords, moveWords } from '../../../src/app/screens/puppet/moves/moveWords.ts';
import { FLAG_CLIPPED, FLAG_LOST } from '../../../src/puppet/puppetPoses.ts';
import { samplePlan } from '../../charts/samplePlan.ts';

describe('moves in words', () => {
  it('say degrees with their sign for one axis, a size for a ball, nothing where nothing moves', () => {
    const plan = samplePlan();
    expect(moveWords(plan, 1, 3)).toBe('−0.5°');
    expect(moveWords(plan, 1, 0)).toBe('1.0°');
    expect(moveWords(plan, 0, 0)).toBeNull();
    expect(moveWords(plan, 4, 2)).toBe('–');
    expect(moveWords(plan, 1, 1)).toBeNull();
  });

  it('say turns of the key for a screw', () => {
    const keyTurns = new Float64Array(24).fill(Number.NaN);
    keyTurns[1 * 4 + 3] = -1.25;
    expect(moveWords(samplePlan({ keyTurns }), 1, 3)).toBe('−1¼ turns');
    expect(keyWords(0.125)).toBe('+⅛ turn');
    expect(keyWords(2)).toBe('+2 turns');
    expect(keyWords(0.3)).toBe('+0.30 turn');
    expect(keyWords(-1)).toBe('−1 turn');
  });

  it('say directions as the hour, and depth as toward or away', () => {
    expect(hourWords(12)).toBe('12 o’clock');
    expect(hourWords(0.2)).toBe('12 o’clock');
    expect(hourWords(2.4)).toBe('2½ o’clock');
    expect(hourWords(11.8)).toBe('12 o’clock');
    expect(hourWords(Number.NaN)).toBe('');
    expect(depthWords(3.14)).toBe('3.1 mm toward');
    expect(depthWords(-2)).toBe('2.0 mm away');
    expect(depthWords(0.01)).toBe('');
  });
});

describe('flags', () => {
  it('run over steps that follow each other, joint by joint and kind by kind', () => {
    const flags = new Uint8Array(24);
    for (const s of [1, 2, 5]) flags[s * 4 + 3] = FLAG_CLIPPED;
    flags[2 * 4 + 3]! |= FLAG_LOST;
    const plan = samplePlan({ flags });
    expect(flagRuns(plan).map(({ joint, kind, first, last }) => [joint, kind.bit, first, last])).toEqual([
      [3, FLAG_CLIPPED, 1, 2], [3, FLAG_CLIPPED, 5, 5], [3, FLAG_LOST, 2, 2],
    ]);
    expect(flagsAt(plan, 2, 3).map(({ bit }) => bit)).toEqual([FLAG_CLIPPED, FLAG_LOST]);
  });
});
