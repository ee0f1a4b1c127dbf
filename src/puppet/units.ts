/**
 * Lengths as people write them: millimetres inside, inches on request (1 in = 25.4 mm exactly; international inch, 1959).
 */
export const MM_PER_INCH = 25.4;

export type LengthUnit = 'mm' | 'in';

const WRITTEN = /^\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))(?:\s+(\d+)\s*\/\s*(\d+))?\s*(mm|cm|m|in|inch|inches|["″])?\s*$/i;
const FRACTION = /^\s*([+-]?\d+)\s*\/\s*(\d+)\s*(mm|cm|m|in|inch|inches|["″])?\s*$/i;

/**
 * A length as typed: "120", "12 cm", "3 in", "3.5″", "3 1/2 in", "1/4 in"; a comma serves as a decimal point.
 *
 * @param unit what a bare number means
 * @returns millimetres, or `null` where it is no length
 */
export function parseLengthMm(text: string, unit: LengthUnit = 'mm'): number | null {
  const part = FRACTION.exec(text);
  if (part !== null) return Number(part[2]) === 0 ? null : (Number(part[1]) / Number(part[2])) * perUnit(part[3], unit);
  const found = WRITTEN.exec(text);
  if (found === null) return null;
  const whole = Number(found[1]!.replace(',', '.'));
  const below = Number(found[3] ?? 1);
  if (below === 0) return null;
  const share = Number(found[2] ?? 0) / below;
  return (whole + (whole < 0 ? -share : share)) * perUnit(found[4], unit);
}

function perUnit(word: string | undefined, unit: LengthUnit): number {
  switch (word?.toLowerCase()) {
    case undefined: return unit === 'mm' ? 1 : MM_PER_INCH;
    case 'mm': return 1;
    case 'cm': return 10;
    case 'm': return 1000;
    default: return MM_PER_INCH;
  }
}

/** A length in words: "120 mm", "4.72 in"; a dash where it isn't known. */
export function lengthText(mm: number, unit: LengthUnit = 'mm', places = unit === 'mm' ? 1 : 2): string {
  if (!Number.isFinite(mm)) return '–';
  const value = Number((unit === 'mm' ? mm : mm / MM_PER_INCH).toFixed(places)) + 0;
  return `${String(value)} ${unit}`;
}
