/**
 * One line of progress: rewritten in place on a terminal, a line for each tenth elsewhere so that a log stays short.
 */
import type { PoseTick } from './lab.ts';

function words(tick: PoseTick): string {
  const left = Number.isFinite(tick.remainingS) ? `${Math.ceil(tick.remainingS)} s left` : 'time left not known yet';
  return `posed ${tick.doneFrames} of ${tick.totalFrames} frames, ${tick.framesPerS.toFixed(1)} a second, ${left}`;
}

/** What is needed of a stream. */
export interface LineStream {
  write(text: string): unknown;
  readonly isTTY?: boolean;
}

/**
 * @param out where to write, usually standard error, so that standard output stays clean for scripts
 * @returns `tick` to call with progress and `end` to call once when the run is over
 */
export function progressLine(out: LineStream): { tick: (tick: PoseTick) => void; end: () => void } {
  let tenth = -1;
  let open = false;
  return {
    tick: (tick) => {
      if (out.isTTY) {
        out.write(`\r\x1b[K${words(tick)}`);
        open = true;
        return;
      }
      const reached = Math.floor((10 * tick.doneFrames) / Math.max(1, tick.totalFrames));
      if (reached > tenth) {
        tenth = reached;
        out.write(`${words(tick)}\n`);
      }
    },
    end: () => {
      if (open) out.write('\n');
      open = false;
    },
  };
}
