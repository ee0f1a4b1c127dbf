/** Agreement and the split into moving and still, on curves whose figures can be worked out by hand. */
import { describe, expect, it } from 'vitest';
import { agreement, type Pair } from '../../scripts/accuracy/agreement.ts';
import { movingFrames } from '../../scripts/accuracy/moving.ts';

describe('agreement', () => {
  it('gives a constant offset as bias and as error, with correlation 1', () => {
    const pairs: Pair[] = [0, 10, 20, 30].map((truth) => [truth, truth + 4]);
    const got = agreement(pairs)!;
    expect(got.bias).toBeCloseTo(4, 12);
    expect(got.rmse).toBeCloseTo(4, 12);
    expect(got.correlation).toBeCloseTo(1, 12);
    expect(got.n).toBe(4);
  });

  it('sees half the range as an error without bias', () => {
    const got = agreement([[-20, -10], [0, 0], [20, 10]])!;
    expect(got.bias).toBeCloseTo(0, 12);
    expect(got.rmse).toBeCloseTo(Math.sqrt(200 / 3), 12);
    expect(got.correlation).toBeCloseTo(1, 12);
  });

  it('gives no correlation for a curve that hardly varies, and none of anything without pairs', () => {
    expect(agreement([[5, 0], [5.1, 30], [5.2, 60]])!.correlation).toBeNull();
    expect(agreement([[Number.NaN, 1], [1, Number.NaN]])).toBeUndefined();
  });

  it('leaves out what is not known on either side', () => {
    expect(agreement([[1, 3], [2, Number.NaN], [3, 5]])).toMatchObject({ n: 2, bias: 2 });
  });
});

describe('moving frames', () => {
  it('are those in which the truth changes by more than 10 degrees a second, at any frame rate', () => {
    const timesS = [0, 0.1, 0.3, 0.35, 0.4, 0.5];
    // Flat, then 80 degrees a second from 0.3 s on, which the frame at 0.3 s sees through its right neighbour.
    const angles = [7, 7, 7, 11, 15, 23];
    expect(movingFrames(timesS, angles)).toEqual([false, false, true, true, true, true]);
    expect(movingFrames([0, 1, 2], [0, 9, 18])).toEqual([false, false, false]);
    expect(movingFrames([0], [3])).toEqual([false]);
  });
});
