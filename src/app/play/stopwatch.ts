/** The stopwatch: taps along an action, with a plan or without one. Moments are those of the press, not of when the page came round to it. */
import { createStore } from 'zustand/vanilla';
import { playhead } from '../state/playhead.ts';
import { session } from '../state/session.ts';
import { filmSAt } from './running.ts';

export interface Taps {
  /** Moments of the film, seconds from its first exposure; where there was no plan, seconds since the first tap. In the order of tapping. */
  readonly tapsS: readonly number[];
  /** Whether they belong to a plan's film. */
  readonly onFilm: boolean;
  /** What came of making marks of them; empty where there is nothing to say. */
  readonly outcome: string;
}

export const taps = createStore<Taps>(() => ({ tapsS: [], onFilm: true, outcome: '' }));

/** Where free tapping began: a moment of the page's clock and one of the film. */
let begun: { readonly atMs: number; readonly filmS: number } | null = null;

/** Counts a tap at the moment that is played; with nothing playing the first stands at the playhead's step, and the clock goes on from there. */
export function tap(atMs: number): void {
  const onFilm = session.getState().plan !== null;
  // what was tapped without a plan and what is tapped along one are no one list
  if (taps.getState().tapsS.length > 0 && taps.getState().onFilm !== onFilm) clearTaps();
  const played = filmSAt(atMs);
  if (played === null) begun ??= { atMs, filmS: filmSHere() };
  const filmS = played ?? begun!.filmS + (atMs - begun!.atMs) / 1000;
  taps.setState(({ tapsS }) => ({ tapsS: [...tapsS, filmS], onFilm, outcome: '' }));
}

/** The next free tap begins anew. */
export function beginTaps(): void {
  begun = null;
}

/** Takes the last tap back; the clock goes on. */
export function takeBackTap(): void {
  taps.setState(({ tapsS }) => ({ tapsS: tapsS.slice(0, -1) }));
  if (taps.getState().tapsS.length === 0) begun = null;
}

export function clearTaps(): void {
  begun = null;
  taps.setState({ tapsS: [], onFilm: true, outcome: '' });
}

/** Moment of the film at the playhead's step, seconds; 0 without a plan. */
export function filmSHere(): number {
  const { plan } = session.getState();
  return plan?.filmTimeS[Math.min(plan.stepCount - 1, playhead.getState().step)] ?? 0;
}
