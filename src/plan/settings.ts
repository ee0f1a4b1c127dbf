/**
 * Everything a person can set that changes the numbers of a plan. Kept in the book, given to the planner.
 */
import type { Smoother } from '../motion/smoothing.ts';

export const STEP_HOLDS = [1, 2, 3, 4] as const;
export type StepHold = (typeof STEP_HOLDS)[number];

export interface PlanSettings {
  /** First and last moment used, container seconds; `null` is the take's own start or end. */
  readonly inS: number | null;
  readonly outS: number | null;
  /** How many times faster than its stored rate the clip was shot (240 stored as 30 → 8). ≥ a small positive number. */
  readonly captureFactor: number;
  /** Swap left and right, as in a mirror. */
  readonly mirror: boolean;
  /** Smoothing cut-off in Hz of the performer's own time; 0 switches smoothing off. */
  readonly cutoffHz: number;
  /** Which smoother the cut-off is for. */
  readonly smoother: Smoother;
  /** Exposures a second of the film. */
  readonly rate: number;
  /** Exposures for which one pose is held: 1 = on ones … 4 = on fours. */
  readonly on: StepHold;
  /** Film time ÷ performer's time: 1 as performed, 2 twice as long (slower), 0.5 half as long. */
  readonly timeScale: number;
}

export const DEFAULT_SETTINGS: PlanSettings = {
  inS: null,
  outS: null,
  captureFactor: 1,
  mirror: false,
  cutoffHz: 3.5,
  smoother: 'penalised',
  rate: 24,
  on: 2,
  timeScale: 1,
};

/** Allowed ranges, for the schema, the controls and the messages alike. */
export const SETTING_LIMITS = {
  captureFactor: { min: 0.1, max: 100 },
  cutoffHz: { min: 0, max: 30 },
  rate: { min: 1, max: 240 },
  timeScale: { min: 0.05, max: 20 },
} as const;
