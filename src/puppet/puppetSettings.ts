/**
 * What a person sets for the puppet beside its armature: how it follows the performer, what is pinned, what moves by hand,
 * when and where a datum is read. Kept in the book as `book.puppet`; plain data.
 *
 * Times are container seconds of the take, so that everything stays with the performance when it is retimed.
 */
import type { Drive, Triple } from './armature.ts';

/**
 * How a hand-set curve goes on from a key: `smooth` through the keys without overshoot (PCHIP), `soft` slow in and slow out,
 * `soft start`, `soft end`, `straight`, `stay` until the next key.
 */
export const EASES = ['smooth', 'soft', 'soft start', 'soft end', 'straight', 'stay'] as const;
export type Ease = (typeof EASES)[number];

export interface CurveKey {
  readonly timeS: number;
  readonly valueDeg: number;
  readonly ease: Ease;
}

export const CURVE_AXES = ['axis', 'forward', 'up', 'right'] as const;
export type CurveAxis = (typeof CURVE_AXES)[number];

/** A curve set by hand; it is added to what the performer gives (nothing, for a joint without a source). */
export interface HandCurve {
  readonly joint: string;
  /** `axis` for kinds of one axis, else which of the parent's axes the turn is about. */
  readonly axis: CurveAxis;
  /** Rising in time; the first and last value hold before and after. */
  readonly keys: readonly CurveKey[];
}

/** A point of the puppet that stays on a point of the set for a while. */
export interface Pin {
  /** The bone whose point it is. */
  readonly bone: string;
  /** Place along the bone: 0 its start, 1 its end. */
  readonly at: number;
  readonly fromS: number;
  readonly toS: number;
  /** Where on the set, mm; `null`: where it is when the span begins. */
  readonly targetMm: Triple | null;
  /** Steps over which it goes there and comes away. */
  readonly easeSteps: number;
}

export interface DatumSettings {
  /** A reading every so many steps; 0: only at `atSteps`. */
  readonly everySteps: number;
  /** Steps (from 1) with a reading of their own. */
  readonly atSteps: readonly number[];
  /** Names of the points that are read, as in `chainPoints.ts`; `null`: all of them. */
  readonly points: readonly string[] | null;
  /** The mark on the stage floor that distances are measured from: forward, right, mm. */
  readonly markMm: readonly [number, number];
}

/** Where the taking camera stands, until the lens itself is known. */
export interface TakingView {
  /** 0 in front of the set, positive towards the puppet's right when it faces front. */
  readonly azimuthDeg: number;
  /** How far above the level it looks down from. */
  readonly elevationDeg: number;
}

export interface PuppetSettings {
  /** How each joint follows; `null`: as the armature says. Joints not named here follow as the armature says. */
  readonly drives: readonly Drive[] | null;
  readonly curves: readonly HandCurve[];
  readonly pins: readonly Pin[];
  /** Solve the legs again so that standing feet stay where they are. */
  readonly plantFeet: boolean;
  readonly datum: DatumSettings;
  readonly view: TakingView;
  /** Height the figure is to read as, metres, for the time scale that is offered; `null`: as tall as the performer. */
  readonly apparentHeightM: number | null;
}

export const DEFAULT_PUPPET_SETTINGS: PuppetSettings = {
  drives: null,
  curves: [],
  pins: [],
  plantFeet: true,
  datum: { everySteps: 12, atSteps: [], points: null, markMm: [0, 0] },
  view: { azimuthDeg: 0, elevationDeg: 0 },
  apparentHeightM: null,
};
