import { describe, expect, it } from 'vitest';
import { type TraceEvent, workOfFrames } from '../../scripts/bench/mainThread.ts';

const event = (name: string, ts: number, dur: number, tdur = dur): TraceEvent => ({ name, ph: 'X', pid: 1, tid: 1, ts, dur, tdur });

describe('the work of display frames', () => {
  it('counts all tasks till the next frame, and only frames that draw something anew', () => {
    const own = [
      event('RunTask', 0, 4000, 3000), event('ProxyMain::BeginMainFrame', 1000, 2500), event('ProxyMain::BeginMainFrame::commit', 3000, 300),
      event('RunTask', 9000, 2000),
      // a frame in which nothing changed
      event('RunTask', 16000, 1000), event('ProxyMain::BeginMainFrame', 16100, 500),
      event('RunTask', 33000, 20000), event('ProxyMain::BeginMainFrame', 33100, 800), event('ProxyMain::BeginMainFrame::commit', 33500, 300),
    ];
    expect(workOfFrames(own)).toEqual([5, 20]);
  });
});
