/**
 * A proposal for the hold pattern from how far things jump between poses.
 *
 * On twos the eye gets every second place of a path, and what moves fast falls apart into separate figures when it no longer
 * overlaps itself. How far a thing may jump has no published threshold; the usual advice is ones for fast moves, twos for the
 * rest (common practice, no source). So this is a rule of thumb of ours: ones where a point of the puppet would jump, on twos, by more than
 * a tenth of the figure's height; back to twos where it stays under two thirds of that for a while.
 */
import type { HoldSpan } from './timingSettings.ts';

/** Jump between poses, as a part of the figure's height, above which poses go on ones; and below which they go back. Our choices. */
export const FAST_PART = 0.1;
const CALM_PART = FAST_PART * (2 / 3);
/** Shortest span, exposures: fewer are no change that a hand would make. Our choice. */
const LEAST_EXPOSURES = 8;

export interface JumpSources {
  readonly stepCount: number;
  readonly exposure: Int32Array;
  readonly holds: Int32Array;
  /** `[N·C]` way of each point since the pose before, mm. */
  readonly travelMm: Float64Array;
  readonly points: { readonly length: number };
  /** Places of the points, mm, for the figure's height. `[N·C·3]` */
  readonly pointMm: Float64Array;
}

/**
 * @param on exposures for which poses are held where nothing is fast; ones need no proposal
 * @returns spans that begin on steps of the plan; empty where nothing is fast enough, or all is on ones
 */
export function proposeHolds({ stepCount, exposure, holds, travelMm, points, pointMm }: JumpSources, on: 1 | 2 | 3 | 4): readonly HoldSpan[] {
  if (on === 1 || stepCount === 0 || points.length === 0) return [];
  const heightMm = heightOf(pointMm);
  if (!(heightMm > 0)) return [];
  const jump = (s: number): number => {
    let most = 0;
    for (let c = 0; c < points.length; c++) {
      const way = travelMm[s * points.length + c]!;
      if (way > most) most = way;
    }
    // as if the pose before had been held for `on` exposures
    return ((most / (holds[Math.max(0, s - 1)] ?? on)) * on) / heightMm;
  };
  const fast = new Uint8Array(stepCount);
  let now = false;
  for (let s = 0; s < stepCount; s++) {
    const by = jump(s);
    now = by > FAST_PART || (now && by > CALM_PART);
    // the way to a pose is travelled from the pose before it
    if (now) fast[Math.max(0, s - 1)] = fast[s] = 1;
  }
  const runs: { from: number; to: number; fast: boolean }[] = [];
  for (let s = 0; s < stepCount; s++) {
    const last = runs.at(-1);
    if (last !== undefined && last.fast === (fast[s] === 1)) last.to = s;
    else runs.push({ from: s, to: s, fast: fast[s] === 1 });
  }
  const length = ({ from, to }: { from: number; to: number }): number => exposure[to]! + holds[to]! - exposure[from]!;
  // short calm runs between fast ones go with them; short fast ones stay as they are performed
  const joined: typeof runs = [];
  for (const run of runs) {
    const last = joined.at(-1);
    const as = !run.fast && joined.length > 0 && run.to < stepCount - 1 && length(run) < LEAST_EXPOSURES ? true : run.fast;
    if (last !== undefined && last.fast === as) last.to = run.to;
    else joined.push({ ...run, fast: as });
  }
  const spans: HoldSpan[] = [];
  let held: number = on;
  for (const run of joined) {
    const wanted = run.fast && length(run) >= LEAST_EXPOSURES ? 1 : on;
    if (wanted === held) continue;
    spans.push({ fromExposure: exposure[run.from]!, on: wanted });
    held = wanted;
  }
  return spans;
}

function heightOf(pointMm: Float64Array): number {
  let [least, most] = [Infinity, -Infinity];
  for (let i = 1; i < pointMm.length; i += 3) {
    const y = pointMm[i]!;
    if (y < least) least = y;
    if (y > most) most = y;
  }
  return most - least;
}
