/** What plan.json says about the timing: marks, holds, bent time, moves and pauses. */
import type { Plan } from '../plan/plan.ts';
import type { TurningPoint } from '../timing/snap/turningPoints.ts';
import type { AliveSettings, FilmGauge, HoldSpan, MarkKind, TimeMark, TimingSettings } from '../timing/timingSettings.ts';
import { PLACES, rounded } from './rounding.ts';

export interface PlanJsonMark {
  readonly name: string;
  readonly kind: MarkKind;
  readonly locked: boolean;
  readonly sourceTimeS: number;
  readonly filmTimeS: number;
  /** Counted from 1; with a fraction where it stands between two. */
  readonly exposure: number;
}

/** An extreme of a joint, as far as it could be drawn to a step. */
export interface PlanJsonExtreme {
  readonly joint: string;
  readonly sourceTimeS: number;
  readonly angleDeg: number;
}

export interface PlanJsonBent extends PlanJsonExtreme {
  /** Where it would stand, and where it stands. */
  readonly fromFilmTimeS: number;
  readonly toFilmTimeS: number;
  /** From the first to the second, later is positive. */
  readonly bentS: number;
  readonly bentExposures: number;
}

/** What a person set about the timing, and what came of it. */
export interface PlanJsonTiming {
  readonly marks: readonly PlanJsonMark[];
  readonly holdSpans: readonly HoldSpan[];
  readonly snapJoints: readonly string[];
  readonly bentTime: readonly PlanJsonBent[];
  /** Extremes of those joints that could not be drawn to a step. */
  readonly betweenSteps: readonly PlanJsonExtreme[];
  readonly alive: AliveSettings;
  readonly gauge: FilmGauge | null;
}

/** A move, in steps from 1 (fractions where it begins or ends between two) and in seconds of the take. */
export interface PlanJsonMove {
  readonly of: string;
  readonly startStep: number;
  readonly peakStep: number;
  readonly endStep: number;
  readonly startS: number;
  readonly peakS: number;
  readonly endS: number;
  readonly sizeDeg: number;
  readonly peakDegPerS: number;
  readonly easeIn: number;
  readonly easeOut: number;
}

/** A pause: its first and last step, from 1. */
export interface PlanJsonPause {
  readonly of: string;
  readonly fromStep: number;
  readonly toStep: number;
  readonly fromS: number;
  readonly toS: number;
  readonly driftDeg: number;
}

const number = (value: number, places: number): number => rounded(value, places) ?? 0;
const seconds = (value: number): number => number(value, PLACES.seconds);
const degrees = (value: number): number => number(value, PLACES.degrees);
/** Places of fractions of a step or an exposure, and of shares. */
const FINE = 3;

/** @param timing what the plan was made with */
export function timingToJson({ rate, bentTime }: Pick<Plan, 'rate' | 'bentTime'>, timing: TimingSettings): PlanJsonTiming {
  return {
    marks: timing.marks.map((mark) => markOf(mark, rate)),
    holdSpans: timing.holdSpans.map(({ fromExposure, on }) => ({ fromExposure, on })),
    snapJoints: [...timing.snapJoints],
    bentTime: bentTime.bent.map((point) => ({
      ...extremeOf(point),
      fromFilmTimeS: seconds(point.fromFilmS), toFilmTimeS: seconds(point.toFilmS),
      bentS: seconds(point.toFilmS - point.fromFilmS), bentExposures: number((point.toFilmS - point.fromFilmS) * rate, FINE),
    })),
    betweenSteps: bentTime.left.map(extremeOf),
    alive: { strength: timing.alive.strength, pattern: timing.alive.pattern, frozen: [...timing.alive.frozen], mostStill: timing.alive.mostStill },
    gauge: timing.gauge,
  };
}

function markOf({ name, kind, locked, sourceS, filmS }: TimeMark, rate: number): PlanJsonMark {
  return { name, kind, locked, sourceTimeS: seconds(sourceS), filmTimeS: seconds(filmS), exposure: number(filmS * rate + 1, FINE) };
}

function extremeOf({ joint, sourceS, angleDeg }: TurningPoint): PlanJsonExtreme {
  return { joint, sourceTimeS: seconds(sourceS), angleDeg: degrees(angleDeg) };
}

export function movesToJson({ moments }: Pick<Plan, 'moments'>): readonly PlanJsonMove[] {
  return moments.moves.map((move) => ({
    of: move.of,
    startStep: number(move.startStep + 1, FINE), peakStep: number(move.peakStep + 1, FINE), endStep: number(move.endStep + 1, FINE),
    startS: seconds(move.startS), peakS: seconds(move.peakS), endS: seconds(move.endS),
    sizeDeg: degrees(move.sizeDeg), peakDegPerS: degrees(move.peakDegPerS), easeIn: number(move.easeIn, FINE), easeOut: number(move.easeOut, FINE),
  }));
}

export function pausesToJson({ moments }: Pick<Plan, 'moments'>): readonly PlanJsonPause[] {
  return moments.pauses.map(({ of, fromStep, toStep, fromS, toS, driftDeg }) => ({
    of, fromStep: fromStep + 1, toStep: toStep + 1, fromS: seconds(fromS), toS: seconds(toS), driftDeg: degrees(driftDeg),
  }));
}
