/**
 * How this person likes to look at things: kept in this browser, not in the book, and never needed to understand one.
 * A browser that refuses to keep them costs nothing but the comfort.
 */
import { type UnitSystem, UNIT_SYSTEMS } from '../fields/measureText.ts';
import { MAX_ROW_PX, MIN_ROW_PX } from '../../charts/rowScale.ts';

export interface Prefs {
  readonly rowPx: number;
  readonly red: boolean;
  /** Joints shown on the Pace screen by name; `null` means the ones that move most. */
  readonly joints: readonly string[] | null;
  /** Whether the sheet shows the parts of each turn. */
  readonly parts: boolean;
  /** Where the playhead stood, index from 0. */
  readonly step: number;
  /** What lengths and weights are shown in. */
  readonly units: UnitSystem;
}

export const DEFAULT_PREFS: Prefs = { rowPx: 24, red: false, joints: null, parts: false, step: 0, units: 'mm' };

const KEY = 'nudgebook-look';

/** Reads preferences from any stored text; whatever is not understood falls back to its default. */
export function parsePrefs(text: string | null): Prefs {
  let value: unknown;
  try {
    value = text === null ? null : JSON.parse(text);
  } catch {
    // A text that is not JSON was not written by us; the defaults are as good.
    value = null;
  }
  if (typeof value !== 'object' || value === null) return DEFAULT_PREFS;
  const loose = value as Readonly<Record<string, unknown>>;
  const number = (v: unknown, min: number, max: number, otherwise: number): number =>
    typeof v === 'number' && Number.isFinite(v) ? Math.max(min, Math.min(max, v)) : otherwise;
  const joints = loose['joints'];
  return {
    rowPx: number(loose['rowPx'], MIN_ROW_PX, MAX_ROW_PX, DEFAULT_PREFS.rowPx),
    red: loose['red'] === true,
    joints: Array.isArray(joints) && joints.every((j) => typeof j === 'string') ? (joints as string[]) : null,
    parts: loose['parts'] === true,
    step: Math.floor(number(loose['step'], 0, 1e6, 0)),
    units: UNIT_SYSTEMS.find((system) => system === loose['units']) ?? DEFAULT_PREFS.units,
  };
}

/** The kept preferences, or the defaults. */
export function loadPrefs(): Prefs {
  if (typeof localStorage === 'undefined') return DEFAULT_PREFS;
  try {
    return parsePrefs(localStorage.getItem(KEY));
  } catch (refused) {
    console.info('This browser keeps no preferences.', refused);
    return DEFAULT_PREFS;
  }
}

/** Keeps preferences. */
export function savePrefs(prefs: Prefs): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(prefs));
  } catch (refused) {
    console.info('This browser keeps no preferences.', refused);
  }
}
