/** Playing the plan on the bench: each pose is shown for its exposures, through the one playhead. */
import { createStore } from 'zustand/vanilla';
import { paceView } from '../state/paceView.ts';
import { playhead, setPlayhead } from '../state/playhead.ts';
import { session } from '../state/session.ts';
import { clickAt, readySound, setVolume, silence, soundIsReady } from './click.ts';
import { beatPlaces, passingsOf, stepPlaces } from './clickTimes.ts';
import { placeAt, type PlaySpeed, stepAtExposure } from './playClock.ts';
import { currentRun, setRun, type Run } from './running.ts';
import { beginTaps, tap } from './stopwatch.ts';

/** What is seen of it: the take with its skeleton, the puppet, or both. */
export const SHOWN = ['take', 'puppet', 'both'] as const;
export type Shown = (typeof SHOWN)[number];

export interface Player {
  readonly playing: boolean;
  readonly shows: Shown;
  readonly speed: PlaySpeed;
  readonly backwards: boolean;
  readonly looped: boolean;
  readonly clicks: 'off' | 'step' | 'beat';
  readonly beatsPerMinute: number;
  /** 0..1 */
  readonly volume: number;
  /** Whether the space bar taps instead of playing. */
  readonly stopwatch: boolean;
  /** The browser did not let a click be heard. */
  readonly soundRefused: boolean;
}

export const player = createStore<Player>(() => ({
  playing: false, shows: 'both', speed: 1, backwards: false, looped: true, clicks: 'off', beatsPerMinute: 120, volume: 0.5, stopwatch: false, soundRefused: false,
}));

/** Clicks are worked out so far ahead and this often: the page may be busy for the difference and none comes late. Our choices. */
const AHEAD_S = 0.4;
const FEED_MS = 100;
let feeding: ReturnType<typeof setInterval> | undefined;

export function startPlaying(): void {
  const { plan } = session.getState();
  if (plan === null || plan.stepCount === 0) return;
  const { speed, backwards, looped } = player.getState();
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
  const mine: Run = { plan, playing: { fromExposure, toExposure, startExposure, rate: plan.rate, speed, backwards, looped }, startMs: performance.now() };
  setRun(mine);
  player.setState({ playing: true });
  startClicks();
  let shown = -1;
  const tick = (): void => {
    if (currentRun() !== mine) return;
    // another plan or another screen: what was played is not there any more
    if (session.getState().plan !== plan || session.getState().screen !== 'pace') return stopPlaying();
    const { exposure, ended } = placeAt(mine.playing, (performance.now() - mine.startMs) / 1000);
    const at = stepAtExposure(plan.exposure, exposure);
    if (at !== shown) setPlayhead({ step: at, nudge: 0 });
    shown = at;
    if (ended) stopPlaying();
    else requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
}

export function stopPlaying(): void {
  setRun(null);
  stopClicks();
  // taps after playing has stopped are counted from a new beginning
  beginTaps();
  player.setState({ playing: false });
}

/** Changes how it is played; what is under way goes on from where it is. */
export function setPlayer(some: Partial<Player>): void {
  player.setState(some);
  if (some.volume !== undefined) setVolume(some.volume);
  if (currentRun() === null) {
    // the press is used to turn the sound on
    if (some.clicks !== undefined && some.clicks !== 'off') readySound(soundOn, soundOff);
    return;
  }
  if (some.speed !== undefined || some.backwards !== undefined || some.looped !== undefined) startPlaying();
  else if (some.clicks !== undefined || some.beatsPerMinute !== undefined) startClicks();
}

const soundOn = (): void => player.setState({ soundRefused: false });
const soundOff = (): void => player.setState({ soundRefused: true });

/** The space bar: a tap while the stopwatch is on, else playing begins or stops. */
export function playOrTap(): void {
  const { stopwatch, playing } = player.getState();
  if (stopwatch) tap(performance.now());
  else if (playing) stopPlaying();
  else startPlaying();
}

function stopClicks(): void {
  clearInterval(feeding);
  silence();
}

/** From now on, for what plays. */
function startClicks(): void {
  stopClicks();
  const mine = currentRun();
  const { clicks, beatsPerMinute, volume } = player.getState();
  if (mine === null || clicks === 'off') return;
  const { plan, playing, startMs } = mine;
  const places = clicks === 'step' ? stepPlaces(plan.exposure, plan.holds, playing.backwards) : beatPlaces(plan.exposureCount, plan.rate, beatsPerMinute);
  const nowS = (): number => Math.max(0, (performance.now() - startMs) / 1000);
  let doneS = nowS() < FEED_MS / 1000 ? 0 : nowS();
  const feed = (): void => {
    if (currentRun() !== mine || !soundIsReady()) return;
    const toS = nowS() + AHEAD_S;
    // what was due while the sound was off is not heard in a bunch afterwards
    for (const atS of passingsOf(playing, places, Math.max(doneS, nowS() - FEED_MS / 1000), toS)) clickAt(startMs + atS * 1000);
    doneS = toS;
  };
  const own = setInterval(feed, FEED_MS);
  feeding = own;
  readySound(() => {
    soundOn();
    setVolume(volume);
    if (feeding === own) feed();
  }, soundOff);
}
