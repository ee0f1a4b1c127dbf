import { describe, expect, it } from 'vitest';
import { ProgressMeter } from '../../src/pose/progressMeter.ts';

describe('the speed of a run', () => {
  it('is not known before two frames are done, and is never a made-up number', () => {
    const meter = new ProgressMeter(10);
    expect(meter.at(3)).toEqual({ doneFrames: 0, totalFrames: 10, framesPerS: 0, remainingS: Number.NaN });
    meter.add(3);
    expect(meter.at(3).remainingS).toBeNaN();
  });

  it('is that of the last seconds, and gives the time left', () => {
    const meter = new ProgressMeter(1000);
    for (let i = 0; i <= 100; i++) meter.add(i * 0.1); // 10 a second
    expect(meter.at(10).framesPerS).toBeCloseTo(10, 6);
    for (let i = 1; i <= 200; i++) meter.add(10 + i * 0.05); // 20 a second for 10 s
    const now = meter.at(20);
    expect(now.framesPerS).toBeCloseTo(20, 6);
    expect(now.remainingS).toBeCloseTo((1000 - 301) / 20, 6);
  });

  it('stays known when frames take longer than the window', () => {
    const meter = new ProgressMeter(5);
    meter.add(0);
    meter.add(10);
    meter.add(20);
    expect(meter.at(20).framesPerS).toBeCloseTo(0.1, 6);
  });

  it('ends with nothing left', () => {
    const meter = new ProgressMeter(1);
    meter.add(1);
    expect(meter.at(1).remainingS).toBe(0);
  });
});
