/**
 * Says what frame rate a clip really has, from its timestamps alone.
 *
 * Containers round timestamps to ticks (WebM to milliseconds, QuickTime often to 1/600 s), and cameras drop a
 * frame now and then; neither makes a rate variable. Phones do write truly variable rates, and those
 * must not be called constant. The verdict is for display: nothing is ever computed from it.
 */
import type { RateVerdict } from './facts.ts';

/** Rates that clips are made at, frames a second. */
const STANDARD_FPS: readonly number[] = [
  5, 6, 8, 10, 12, 12.5, 15000 / 1001, 15, 16, 18, 20, 24000 / 1001, 24, 25, 30000 / 1001, 30, 48000 / 1001, 48, 50,
  60000 / 1001, 60, 72, 90, 96, 100, 120000 / 1001, 120, 144, 200, 240000 / 1001, 240, 300, 480, 960,
];

/** Tick lengths that round a rate visibly; finer ones are treated like a millisecond, the jitter nobody sees. */
const COARSE_TICKS_S = [1 / 600, 1 / 1000] as const;
const DEFAULT_TICK_S = 1 / 1000;
/** Timestamps this close to a multiple of a tick lie on it (double rounding, microsecond containers). */
const ON_TICK_S = 2e-6;
/** No rounding may hide more than this share of a frame's period. */
const MOST_OF_PERIOD = 0.25;
/** Dropped frames that still count as rare: this share of the clip, or one. */
const RARE_DROPS = 0.02;
/** A standard rate may fit this much worse than the best period before it is refused. */
const SNAP_FACTOR = 1.5;
const SNAP_SLACK_S = 20e-6;
/** Only standard rates within this share of the measured one are tried. */
const NEAR_STANDARD = 0.03;

/**
 * Judges the frame rate.
 *
 * @param timesS presentation timestamps, seconds, strictly rising; may start anywhere
 * @returns `unknown` for fewer than three frames
 */
export function rateVerdict(timesS: ArrayLike<number>): RateVerdict {
  const n = timesS.length;
  if (n < 3) return { kind: 'unknown' };
  const start = timesS[0] ?? 0;
  // Counted from the first frame, so that a huge start time costs no precision in what follows.
  const t = Float64Array.from({ length: n }, (_, i) => (timesS[i] ?? 0) - start);
  const gaps = Float64Array.from({ length: n - 1 }, (_, i) => (t[i + 1] ?? 0) - (t[i] ?? 0)).sort();
  const shortestS = gaps[0] ?? 0;
  const medianS = gaps[gaps.length >> 1] ?? 0;
  const longestS = gaps[gaps.length - 1] ?? 0;
  if (!(shortestS > 0)) return { kind: 'unknown' };

  const grid = gridOf(t, medianS);
  const allowedS = Math.min(tickOf(t) + 2 * ON_TICK_S, medianS * MOST_OF_PERIOD);
  if (grid && grid.spreadS <= allowedS && grid.drops <= Math.max(1, RARE_DROPS * n)) {
    return { kind: 'constant', fps: snap(t, grid, allowedS) };
  }
  return { kind: 'variable', minFps: 1 / longestS, medianFps: 1 / medianS, maxFps: 1 / shortestS };
}

/** Timestamps laid on an even grid: which slot each takes, the period that fits best, how far they stray from it. */
interface Grid {
  readonly slots: Float64Array;
  readonly periodS: number;
  readonly spreadS: number;
  readonly drops: number;
}

function gridOf(t: Float64Array, medianS: number): Grid | undefined {
  // The mean of the gaps near the median is a far better first period than the median, which is itself rounded.
  let sum = 0;
  let count = 0;
  for (let i = 1; i < t.length; i++) {
    const gap = (t[i] ?? 0) - (t[i - 1] ?? 0);
    if (gap < medianS * 1.5) {
      sum += gap;
      count += 1;
    }
  }
  const first = count > 0 ? sum / count : medianS;
  const slots = new Float64Array(t.length);
  let drops = 0;
  for (let i = 1; i < t.length; i++) {
    // Slot by slot and not t / period: an error of the first period must not add up over a long clip.
    const step = Math.round(((t[i] ?? 0) - (t[i - 1] ?? 0)) / first);
    if (step < 1) return undefined;
    drops += step > 1 ? 1 : 0;
    slots[i] = (slots[i - 1] ?? 0) + step;
  }
  const periodS = tightestPeriod(slots, t);
  return { slots, periodS, spreadS: spread(slots, t, periodS), drops };
}

/**
 * The period that leaves the timestamps straying least. Least squares is only the start: rounding errors come in
 * a slow saw-tooth, and a few teeth pull that line askew by more than the rounding itself. The spread is
 * convex in the period, so halving the bracket from both sides finds its least value.
 */
function tightestPeriod(slots: Float64Array, t: Float64Array): number {
  const start = slope(slots, t);
  const reach = (2 * spread(slots, t, start)) / (slots[slots.length - 1] ?? 1);
  let low = start - reach;
  let high = start + reach;
  for (let i = 0; i < 60; i++) {
    const third = (high - low) / 3;
    if (spread(slots, t, low + third) <= spread(slots, t, high - third)) high -= third;
    else low += third;
  }
  return (low + high) / 2;
}

/** Least-squares slope of y over x. */
function slope(x: Float64Array, y: Float64Array): number {
  const mean = (v: Float64Array): number => v.reduce((a, b) => a + b, 0) / v.length;
  const mx = mean(x);
  const my = mean(y);
  let xy = 0;
  let xx = 0;
  for (let i = 0; i < x.length; i++) {
    const dx = (x[i] ?? 0) - mx;
    xy += dx * ((y[i] ?? 0) - my);
    xx += dx * dx;
  }
  return xy / xx;
}

/** Distance between the latest and the earliest frame against an even grid, seconds. */
function spread(slots: Float64Array, t: Float64Array, periodS: number): number {
  let least = Infinity;
  let most = -Infinity;
  for (let i = 0; i < t.length; i++) {
    const off = (t[i] ?? 0) - (slots[i] ?? 0) * periodS;
    least = Math.min(least, off);
    most = Math.max(most, off);
  }
  return most - least;
}

/** Length of the coarsest tick on which every timestamp lies. */
function tickOf(t: Float64Array): number {
  const onTick = (tick: number): boolean => t.every((x) => Math.abs(x - Math.round(x / tick) * tick) <= ON_TICK_S);
  return COARSE_TICKS_S.find(onTick) ?? DEFAULT_TICK_S;
}

/** The standard rate that explains the timestamps best if it does so about as well as any could, else the measured one. */
function snap(t: Float64Array, grid: Grid, allowedS: number): number {
  const measured = 1 / grid.periodS;
  const near = STANDARD_FPS.filter((fps) => Math.abs(fps / measured - 1) < NEAR_STANDARD)
    .map((fps) => ({ fps, offS: spread(grid.slots, t, 1 / fps) }))
    .sort((a, b) => a.offS - b.offS)[0];
  return near && near.offS <= allowedS && near.offS <= grid.spreadS * SNAP_FACTOR + SNAP_SLACK_S ? near.fps : measured;
}

/**
 * The verdict in words: "29.97 constant", "variable 21 to 30", "not known".
 */
export function describeRate(verdict: RateVerdict): string {
  switch (verdict.kind) {
    case 'constant':
      return `${figure(verdict.fps, 3)} constant`;
    case 'variable': {
      const least = figure(verdict.minFps, verdict.minFps < 10 ? 1 : 0);
      const most = figure(verdict.maxFps, verdict.maxFps < 10 ? 1 : 0);
      return least === most ? `variable about ${most}` : `variable ${least} to ${most}`;
    }
    case 'unknown':
      return 'not known';
  }
}

/** A number with at most so many decimals, without trailing zeros. */
function figure(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)));
}
