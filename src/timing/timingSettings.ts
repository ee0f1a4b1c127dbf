/**
 * What a person sets by hand about the timing: marks that tie moments of the take to moments of the film, the hold pattern,
 * how pauses are kept alive. Kept in the book as `book.timing`; plain data.
 *
 * Moments of the take are container seconds; moments of the film are seconds from its first exposure.
 */

import type { JointName } from '../motion/joints.ts';

/** Where a mark comes from: an extreme, the start or the end of a move that was found; a tap of the stopwatch; or placed by hand. */
export const MARK_KINDS = ['extreme', 'start', 'end', 'tap', 'placed'] as const;
export type MarkKind = (typeof MARK_KINDS)[number];

/** Ties a moment of the take to a moment of the film. */
export interface TimeMark {
  /** Unique among the marks; never shown. */
  readonly id: string;
  readonly sourceS: number;
  readonly filmS: number;
  /** Stays where it is when others are moved. */
  readonly locked: boolean;
  readonly kind: MarkKind;
  /** What it marks, in a few words; may be empty. */
  readonly name: string;
}

/** From this exposure (counted from 1) on, a pose is held for so many exposures, until the next span begins. */
export interface HoldSpan {
  readonly fromExposure: number;
  readonly on: 1 | 2 | 3 | 4;
}

export const ALIVE_STRENGTHS = ['off', 'gentle', 'strong'] as const;
export type AliveStrength = (typeof ALIVE_STRENGTHS)[number];
export const ALIVE_PATTERNS = ['sway', 'breath', 'weight shift'] as const;
export type AlivePattern = (typeof ALIVE_PATTERNS)[number];

/** How pauses are kept alive. */
export interface AliveSettings {
  readonly strength: AliveStrength;
  /** `sway`: the performer's own; the others are patterns with stated periods. */
  readonly pattern: AlivePattern;
  /** Names of the puppet's joints that stay still in every pause (a hand on a table). */
  readonly frozen: readonly string[];
  /** Steps that may stand one and the same in a pause before it looks dead, 2..24. */
  readonly mostStill: number;
}

/** A third of a second on twos at 24. Our choice. */
export const DEFAULT_MOST_STILL = 4;
export const MOST_STILL_LIMITS = { min: 2, max: 24 } as const;

/** Gauges that film is counted on; `null` elsewhere: no count in feet. */
export const FILM_GAUGES = ['35 mm', '16 mm'] as const;
export type FilmGauge = (typeof FILM_GAUGES)[number];

export interface TimingSettings {
  /** Rising in both times. */
  readonly marks: readonly TimeMark[];
  /** Names of the performer's joints whose extremes are drawn to the nearest step; empty: none. */
  readonly snapJoints: readonly JointName[];
  /** Rising; before the first one, and without any, `settings.on` holds. */
  readonly holdSpans: readonly HoldSpan[];
  readonly alive: AliveSettings;
  readonly gauge: FilmGauge | null;
}

export const DEFAULT_TIMING: TimingSettings = {
  marks: [],
  snapJoints: [],
  holdSpans: [],
  alive: { strength: 'off', pattern: 'sway', frozen: [], mostStill: DEFAULT_MOST_STILL },
  gauge: null,
};

/** A timing kept under a name, to be compared with others and gone back to. */
export interface NamedTiming {
  readonly id: string;
  readonly name: string;
  readonly timing: TimingSettings;
  /** Of the plan's settings, those that time. */
  readonly rate: number;
  readonly on: 1 | 2 | 3 | 4;
  readonly timeScale: number;
}
