/** What a step's balance says: signs by shape, words with the puppet's own directions, never a figure that was not measured. */
import { describe, expect, it } from 'vitest';
import { VERDICTS } from '../../../src/balance/balance.ts';
import { unknownBalance } from '../../../src/balance/unknownBalance.ts';
import { marginScale } from '../../../src/charts/poise/marginColumn.ts';
import { verdictPath } from '../../../src/charts/poise/verdictSigns.ts';
import { wayAsItFaces } from '../../../src/balance/correct/asItFaces.ts';
import { noteWords, verdictsAt } from '../../../src/charts/poise/verdictWords.ts';

describe('signs', () => {
  it('differ from verdict to verdict, stand at their place and grow with their size', () => {
    const paths = VERDICTS.map((verdict) => verdictPath(verdict, 100, 50, 10));
    expect(new Set(paths).size).toBe(VERDICTS.length);
    for (const path of paths) {
      expect(path).not.toContain('NaN');
      for (const [, x, y] of path.matchAll(/M(-?[\d.]+),(-?[\d.]+)/g)) {
        expect(Math.abs(Number(x) - 100)).toBeLessThanOrEqual(10);
        expect(Math.abs(Number(y) - 50)).toBeLessThanOrEqual(10);
      }
    }
    expect(verdictPath('holds', 0, 0, 10)).toBe('M-7.00,-5.00h14.00v14.00h-14.00z');
  });
});

describe('words', () => {
  it('have the puppet’s own sides: it faces the camera (0°), 90° is its right', () => {
    expect(wayAsItFaces(0, 0)).toBe('forward');
    expect(wayAsItFaces(90, 0)).toBe('to its right');
    expect(wayAsItFaces(90, 90)).toBe('forward');
    expect(wayAsItFaces(-90, 0)).toBe('to its left');
    expect(wayAsItFaces(180, 0)).toBe('back');
    expect(wayAsItFaces(50, 0)).toBe('forward and to its right');
  });

  it('of a note have bones as people call them, and only whole names', () => {
    expect(noteWords('rightFoot was hidden in steps 4 to 9: say whether it touches.', ['rightFoot', 'right'])).toBe('Right foot was hidden in steps 4 to 9: say whether it touches.');
    expect(noteWords('leftForePaw comes down.', ['leftFore', 'leftForePaw'])).toBe('Left fore paw comes down.');
  });

  it('say dashes where nothing is known, and figures with their error where it is', () => {
    const balance = unknownBalance(2, ['leftFoot']);
    expect(verdictsAt(balance, 0, 0).stand).toEqual({ verdict: 'not known', word: 'not known', figures: '–' });
    balance.standMm[1] = -4.25;
    balance.standShare[1] = -0.33;
    balance.marginSigmaMm[1] = 1.5;
    balance.towardDeg[1] = -90;
    balance.standVerdict[1] = VERDICTS.indexOf('falls');
    expect(verdictsAt(balance, 1, 0).stand).toEqual({ verdict: 'falls', word: 'needs a tie-down: falls to its left', figures: '−4.3 ± 1.5 mm, −0.33 of the foot’s width' });
  });
});

it('the scale of the margins holds zero and the wanted margin, also where nothing is known', () => {
  const x = marginScale(unknownBalance(3), 12, 400);
  expect(x(0)).toBeGreaterThan(64);
  expect(x(12)).toBeLessThanOrEqual(384);
  expect(x(12)).toBeGreaterThan(x(0));
});
