import { describe, expect, it } from 'vitest';
import { exposureSpan, figure, jointWords, signedFigure } from '../../src/charts/figures.ts';

describe('figures', () => {
  it('never show NaN or a minus zero', () => {
    expect(figure(Number.NaN, 1)).toBe('–');
    expect(figure(undefined, 1)).toBe('–');
    expect(figure(-0.04, 1)).toBe('0.0');
    expect(signedFigure(0.04, 1)).toBe('0.0');
  });

  it('show direction by sign', () => {
    expect(signedFigure(3.25, 1)).toBe('+3.3');
    expect(signedFigure(-3.14, 1)).toBe('\u22123.1');
  });

  it('say exposures and joints as people do', () => {
    expect(exposureSpan(23, 2)).toBe('23–24');
    expect(exposureSpan(23, 1)).toBe('23');
    expect(jointWords('leftElbow')).toBe('left elbow');
  });
});
