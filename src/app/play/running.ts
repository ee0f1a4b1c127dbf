/** What plays just now. */
import type { Plan } from '../../plan/plan.ts';
import { placeAt, type Playing } from './playClock.ts';

export interface Run {
  readonly plan: Plan;
  readonly playing: Playing;
  /** Moment of the page's clock at which it began. */
  readonly startMs: number;
}

let run: Run | null = null;

export function currentRun(): Run | null {
  return run;
}

export function setRun(next: Run | null): void {
  run = next;
}

/** The moment of the film that is played at a moment of the page's clock, seconds; `null` where nothing plays. */
export function filmSAt(atMs: number): number | null {
  return run === null ? null : placeAt(run.playing, (atMs - run.startMs) / 1000).exposure / run.playing.rate;
}
