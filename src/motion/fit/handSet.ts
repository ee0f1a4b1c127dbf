/**
 * Rows that a person's word adds to the fit: joints placed in the picture, typed angles, depth signs, and frames held as they are.
 * They are made by `motion/corrections`; the solver only reads them.
 */
import type { FigureMeasure } from './measures.ts';

/** The joint is seen here by the first camera: pixels about the middle of the picture, y down. */
export interface PlaceRow {
  readonly frame: number;
  readonly point: number;
  readonly x: number;
  readonly y: number;
  readonly sigmaPx: number;
}

/** The measure has this angle. */
export interface AngleRow {
  readonly frame: number;
  readonly measure: FigureMeasure;
  readonly angleRad: number;
  readonly sigmaRad: number;
}

/** The bone's component along `ray` (a unit vector away from the lens) times `sign` is at least `least`. */
export interface SignRow {
  readonly frame: number;
  readonly bone: number;
  readonly ray: readonly [number, number, number];
  readonly sign: 1 | -1;
  readonly least: number;
}

/**
 * The frame stays about where it is: its 12 free unknowns within `sigmas[0..12)` (metres), its 8 directions within `sigmas[12..20)`
 * (radians). An infinite sigma leaves that one alone.
 */
export interface PinRow {
  readonly frame: number;
  readonly free: Float64Array;
  readonly directions: Float64Array;
  readonly sigmas: Float64Array;
}

/** `firm`: frames in which the trunk's vectors have exactly the take's lengths, as they will when the figure is made rigid. */
export interface HandSet {
  readonly places: readonly PlaceRow[];
  readonly angles: readonly AngleRow[];
  readonly signs: readonly SignRow[];
  readonly pins: readonly PinRow[];
  readonly firm: readonly number[];
}

export const NOTHING_SAID: HandSet = { places: [], angles: [], signs: [], pins: [], firm: [] };
