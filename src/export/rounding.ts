/**
 * Numbers as files carry them: rounded to what they can mean, and `null` where they are not known.
 */

/** Decimal places: degrees to a thousandth, quaternion parts to a millionth, times to a microsecond, metres to a tenth of a mm, errors to a tenth of a degree. */
export const PLACES = { degrees: 3, quaternion: 6, seconds: 6, metres: 4, confidence: 3, error: 1, turn: 6, millimetres: 3, hour: 2 } as const;

/** The number rounded to so many decimal places, never minus zero; `null` for NaN and infinities. */
export function rounded(value: number, places: number): number | null {
  return Number.isFinite(value) ? Number(value.toFixed(places)) + 0 : null;
}

/** The hour on a clock face, above 0 up to 12, to its places in files: what would round to 0 is 12. NaN stays. */
export function clockHour(hour: number): number {
  return Number(hour.toFixed(PLACES.hour)) === 0 ? 12 : hour;
}
