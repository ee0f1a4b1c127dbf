/**
 * What is on the bench just now and how it is looked at: nothing here is saved with the book. Components read it through
 * selectors; only the files of this folder and of `media/` write it.
 */
import { createStore } from 'zustand/vanilla';
import type { CutoffSuggestion } from '../../motion/suggestCutoff.ts';
import type { ErrorData } from '../../errors.ts';
import type { ClipFacts } from '../../footage/facts.ts';
import type { FrameViewer } from '../../footage/frameViewer.ts';
import type { ClipSource } from '../../footage/source.ts';
import type { Corrections } from '../../motion/corrections/corrections.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { Plan } from '../../plan/plan.ts';
import type { ModelSize, Track } from '../../pose/track.ts';
import type { UnitSystem } from '../fields/measureText.ts';
import { loadPrefs } from '../look/prefs.ts';

export const SCREENS = ['take', 'puppet', 'pace', 'poise', 'sheet'] as const;
export type Screen = (typeof SCREENS)[number];

/** Footage that can be shown. */
export interface Footage {
  readonly source: ClipSource;
  readonly facts: ClipFacts;
  readonly viewer: FrameViewer;
}

export interface OpeningJob {
  readonly kind: 'opening';
  readonly name: string;
  readonly abort: AbortController;
}

export interface PosingJob {
  readonly kind: 'posing';
  readonly name: string;
  readonly model: ModelSize;
  readonly done: number;
  readonly total: number;
  readonly framesPerS: number;
  readonly remainingS: number;
  readonly abort: AbortController;
}

export interface FittingJob {
  readonly kind: 'fitting';
  /** Share of the work done, 0..1. */
  readonly fraction: number;
  readonly abort: AbortController;
}

/** Long work that is under way; at most one at a time. */
export type Job = OpeningJob | PosingJob | FittingJob;

/** Whether work is under way that puts another clip or track on the bench. A fit does not: it gives way to everything. */
export function changesBench(job: Job | null): job is OpeningJob | PosingJob {
  return job !== null && job.kind !== 'fitting';
}

/** The body fitted to the track on the bench, and what it was made from. */
export interface Fit {
  readonly track: Track;
  readonly captureFactor: number;
  readonly corrections: Corrections;
  readonly body: FittedBody;
}

export interface Session {
  readonly screen: Screen;
  readonly rowPx: number;
  readonly red: boolean;
  readonly joints: readonly string[] | null;
  readonly parts: boolean;
  /** What lengths and weights are shown in. */
  readonly units: UnitSystem;
  readonly footage: Footage | null;
  /** The track that the plan is made from; while posing it grows, as a new object each time. */
  readonly track: Track | null;
  readonly fit: Fit | null;
  readonly plan: Plan | null;
  /** While a plan for another timing is being made: what is known of it already (`plan/foreseen.ts`). To be looked at only. */
  readonly foreseen: Plan | null;
  /** The smoothing cut-off that the footage suggests; comes with the plan. */
  readonly cutoff: CutoffSuggestion | null;
  readonly job: Job | null;
  /** The one thing that went wrong last, until it is dismissed. */
  readonly problem: ErrorData | null;
  /** Said once by the live region, for those who do not see it happen. */
  readonly said: string;
  readonly helpOpen: boolean;
  /** Whether the kept book has been read; nothing is saved before. */
  readonly ready: boolean;
}

const prefs = loadPrefs();

export const session = createStore<Session>(() => ({
  screen: 'take',
  rowPx: prefs.rowPx,
  red: prefs.red,
  joints: prefs.joints,
  parts: prefs.parts,
  units: prefs.units,
  footage: null,
  track: null,
  fit: null,
  plan: null,
  foreseen: null,
  cutoff: null,
  job: null,
  problem: null,
  said: '',
  helpOpen: false,
  ready: false,
}));

/** Lets the live region say something. */
export function say(words: string): void {
  session.setState({ said: words });
}
