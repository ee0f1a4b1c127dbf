import { describe, expect, it } from 'vitest';
import { orderFrames, type PacketTime } from '../../src/footage/frameOrder.ts';

const packet = (timeS: number, isKey = false, durationS = 0.1): PacketTime => ({ timeS, durationS, isKey });

describe('frames from packets', () => {
  it('come in the order in which they are seen, with their key frames', () => {
    const ordered = orderFrames([packet(0, true), packet(0.3), packet(0.1), packet(0.2), packet(0.4, true)]);
    expect([...ordered.timesS]).toEqual([0, 0.1, 0.2, 0.3, 0.4]);
    expect(ordered.keyFrames).toEqual([0, 4]);
    expect(ordered.durationS).toBeCloseTo(0.5, 12);
    expect(ordered.warnings).toEqual([]);
  });

  it('leave out lead-in before 0, and say so', () => {
    const ordered = orderFrames([packet(-0.2, true), packet(-0.1), packet(0), packet(0.1, true)]);
    expect([...ordered.timesS]).toEqual([0, 0.1]);
    expect(ordered.keyFrames).toEqual([1]);
    expect(ordered.warnings).toEqual(['2 frames lie before the start of the clip and are left out, as a player does.']);
  });

  it('rise strictly: a doubled timestamp is left out, and said', () => {
    const ordered = orderFrames([packet(0, true), packet(0.1), packet(0.1), packet(0.2)]);
    expect([...ordered.timesS]).toEqual([0, 0.1, 0.2]);
    expect(ordered.warnings).toEqual(['1 frame has the same timestamp as another and is left out.']);
  });

  it('end with the gap before the last where the container gives it no length', () => {
    expect(orderFrames([packet(0, true, 0), packet(0.25, false, 0)]).durationS).toBeCloseTo(0.5, 12);
    expect(orderFrames([]).durationS).toBe(0);
  });
});
