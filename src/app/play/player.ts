/** Playing the plan on the bench: each pose is shown for its exposures, through the one playhead. */
import { createStore } from 'zustand/vanilla';
import { paceView } from '../state/paceView.ts';
import { playhead, setPlayhead } from '../state/playhead.ts';
import { session } from '../state/session.ts';
import { click, readySound } from './click.ts';
import { placeAt, type Playing, type PlaySpeed, stepAtExposure } from './playClock.ts';

export interface Player {
  readonly playing: boolean;
  readonly speed: PlaySpeed;
  readonly backwards: boolean;
  readonly looped: boolean;
  readonly clicks: 'off' | 'step' | 'beat';
  readonly beatsPerMinute: number;
  /** 0..1 */
  readonly volume: number;
  readonly stopwatch: boolean;
  /** Moments of the film at which somebody tapped, seconds. */
  readonly tapsS: readonly number[];
}

export const player = createStore<Player>(() => ({
  playing: false, speed: 1, backwards: false, looped: true, clicks: 'off', beatsPerMinute: 120, volume: 0.5, stopwatch: false, tapsS: [],
}));

let run: { readonly playing: Playing; readonly startMs: number } | null = null;
/** Where free tapping began: a moment of the clock and one of the film. */
let tapping: { readonly startMs: number; readonly filmS: number } | null = null;

export function startPlaying(): void {
  const { plan } = session.getState();
  if (plan === null || plan.stepCount === 0) return;
  const { speed, backwards, looped, clicks } = player.getState();
  if (clicks !== 'off') readySound();
  const last = plan.stepCount - 1;
  const [from, to] = paceView.getState().span ?? [0, last];
  const endOf = (step: number): number => plan.exposure[step]! - 1 + plan.holds[step]!;
  const fromExposure = plan.exposure[Math.min(from, last)]! - 1;
  const toExposure = endOf(Math.min(to, last));
  const step = Math.min(last, playhead.getState().step);
  const here = backwards ? endOf(step) : plan.exposure[step]! - 1;
  // from the end of the span one begins anew
  const over = backwards ? step <= from : step >= to;
  const outside = here < fromExposure || here > toExposure;
  const startExposure = over || outside ? (backwards ? toExposure : fromExposure) : here;
  const startMs = performance.now();
  run = { playing: { fromExposure, toExposure, startExposure, rate: plan.rate, speed, backwards, looped }, startMs };
  player.setState({ playing: true });
  let shown = -1;
  let beat = -1;
  const mine = run;
  const tick = (): void => {
    if (run !== mine) return;
    // another plan or another screen: what was played is not there any more
    if (session.getState().plan !== plan || session.getState().screen !== 'pace') return stopPlaying();
    const nowMs = performance.now();
    const { exposure, ended } = placeAt(mine.playing, (nowMs - startMs) / 1000);
    const at = stepAtExposure(plan.exposure, exposure);
    const now = player.getState();
    if (at !== shown) {
      setPlayhead({ step: at, nudge: 0 });
      if (now.clicks === 'step') click(now.volume);
      shown = at;
    }
    const beats = Math.floor(((nowMs - startMs) / 60_000) * now.beatsPerMinute);
    if (beats !== beat && now.clicks === 'beat') click(now.volume);
    beat = beats;
    if (ended) stopPlaying();
    else requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
}

export function stopPlaying(): void {
  run = null;
  // taps after playing has stopped are counted from a new beginning
  tapping = null;
  player.setState({ playing: false });
}

/** Changes how it is played; what is under way goes on from where it is. */
export function setPlayer(some: Partial<Player>): void {
  player.setState(some);
  if (some.clicks !== undefined && some.clicks !== 'off') readySound();
  if (player.getState().playing && (some.speed !== undefined || some.backwards !== undefined || some.looped !== undefined)) startPlaying();
}

/** The space bar: a tap while the stopwatch is on, else playing begins or stops. */
export function playOrTap(): void {
  const { stopwatch, playing } = player.getState();
  if (stopwatch) tap();
  else if (playing) stopPlaying();
  else startPlaying();
}

/** Counts a tap at the moment that is played; with nothing playing, from the playhead's step on by the clock. */
export function tap(): void {
  const nowMs = performance.now();
  let filmS: number;
  if (run !== null) {
    filmS = placeAt(run.playing, (nowMs - run.startMs) / 1000).exposure / run.playing.rate;
  } else {
    tapping ??= { startMs: nowMs, filmS: filmSHere() };
    filmS = tapping.filmS + (nowMs - tapping.startMs) / 1000;
  }
  player.setState(({ tapsS }) => ({ tapsS: [...tapsS, filmS] }));
}

export function clearTaps(): void {
  tapping = null;
  player.setState({ tapsS: [] });
}

function filmSHere(): number {
  const { plan } = session.getState();
  return plan?.filmTimeS[Math.min(plan.stepCount - 1, playhead.getState().step)] ?? 0;
}
