/** Stretches of frames in which a limb is known, moves, and moves once. */

/** Frames `from`..`to`, both included. */
export interface Run {
  readonly from: number;
  readonly to: number;
}

/** A dip to this part of the lower of the peaks on its two sides parts two moves. Our choice. */
const DIP_PART = 0.35;

/** Where the speed is known. */
export function knownRuns(degPerS: Float64Array): Run[] {
  const out: Run[] = [];
  for (let t = 0; t < degPerS.length; t++) {
    if (Number.isNaN(degPerS[t]!)) continue;
    const last = out.at(-1);
    if (last !== undefined && last.to === t - 1) out[out.length - 1] = { from: last.from, to: t };
    else out.push({ from: t, to: t });
  }
  return out;
}

/** Where the speed rises above `upper`, reaching out to where it falls to `lower`. */
export function activeRuns(degPerS: Float64Array, { from, to }: Run, upper: number, lower: number): Run[] {
  const out: Run[] = [];
  for (let t = from; t <= to; t++) {
    if (!(degPerS[t]! > upper)) continue;
    let first = t;
    while (first > from && degPerS[first - 1]! > lower) first--;
    let last = t;
    while (last < to && degPerS[last + 1]! > lower) last++;
    out.push({ from: first, to: last });
    t = last;
  }
  return out;
}

/** Runs with less than a pause between them become one. */
export function join(runs: readonly Run[], timesS: Float64Array, pauseS: number): Run[] {
  const out: Run[] = [];
  for (const run of runs) {
    const last = out.at(-1);
    if (last !== undefined && timesS[run.from]! - timesS[last.to]! < pauseS) out[out.length - 1] = { from: last.from, to: run.to };
    else out.push(run);
  }
  return out;
}

/** A run parted at its deep dips. */
export function parts({ from, to }: Run, degPerS: Float64Array): Run[] {
  let deepest = -1;
  let depth = DIP_PART;
  const before = runningMost(degPerS, from, to, 1);
  const after = runningMost(degPerS, to, from, -1);
  for (let t = from + 1; t < to; t++) {
    const beside = Math.min(before[t - from]!, after[t - from]!);
    const part = degPerS[t]! / beside;
    if (part < depth) {
      depth = part;
      deepest = t;
    }
  }
  if (deepest < 0) return [{ from, to }];
  return [...parts({ from, to: deepest }, degPerS), ...parts({ from: deepest, to }, degPerS)];
}

/** `[…]` largest value from the start of a sweep up to each frame. */
function runningMost(values: Float64Array, from: number, to: number, by: 1 | -1): Float64Array {
  const low = Math.min(from, to);
  const out = new Float64Array(Math.abs(to - from) + 1);
  let most = 0;
  for (let t = from; by > 0 ? t <= to : t >= to; t += by) {
    most = Math.max(most, values[t]!);
    out[t - low] = most;
  }
  return out;
}
