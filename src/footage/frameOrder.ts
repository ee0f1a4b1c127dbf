/**
 * From packets in decode order to frames in the order in which they are seen.
 */

export interface PacketTime {
  readonly timeS: number;
  readonly durationS: number;
  readonly isKey: boolean;
}

export interface FrameOrder {
  /** Strictly rising, none below 0. */
  readonly timesS: Float64Array;
  /** Indices into `timesS` of frames that decode on their own. */
  readonly keyFrames: readonly number[];
  /** End of the last frame. */
  readonly durationS: number;
  readonly warnings: readonly string[];
}

/**
 * Sorts frames by time; drops those before 0 (lead-in that an edit list hides; a player does not show it either) and
 * all but the first of frames that share a timestamp, and says so.
 */
export function orderFrames(packets: readonly PacketTime[]): FrameOrder {
  const sorted = [...packets].sort((a, b) => a.timeS - b.timeS);
  const shown = sorted.filter((p) => p.timeS >= 0);
  const frames = shown.filter((p, i) => i === 0 || p.timeS > (shown[i - 1]?.timeS ?? -Infinity));
  const warnings: string[] = [];
  const early = sorted.length - shown.length;
  const doubled = shown.length - frames.length;
  if (early > 0) warnings.push(`${count(early, 'frame lies', 'frames lie')} before the start of the clip and ${early === 1 ? 'is' : 'are'} left out, as a player does.`);
  if (doubled > 0) warnings.push(`${count(doubled, 'frame has', 'frames have')} the same timestamp as another and ${doubled === 1 ? 'is' : 'are'} left out.`);
  const timesS = Float64Array.from(frames, (p) => p.timeS);
  return {
    timesS,
    keyFrames: frames.flatMap((p, i) => (p.isKey ? [i] : [])),
    durationS: endOf(frames),
    warnings,
  };
}

/** End of the last frame; a container that gives it no length gets the gap before it. */
function endOf(frames: readonly PacketTime[]): number {
  const last = frames[frames.length - 1];
  if (!last) return 0;
  const before = frames[frames.length - 2];
  return last.timeS + (last.durationS > 0 || !before ? last.durationS : last.timeS - before.timeS);
}

function count(n: number, one: string, many: string): string {
  return `${n} ${n === 1 ? one : many}`;
}
