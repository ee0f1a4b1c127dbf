/** Numbers as people type them, and back. */

export interface NumberRange {
  readonly min: number;
  readonly max: number;
  readonly mayBeEmpty: boolean;
}

export type NumberRead =
  | { readonly kind: 'read'; readonly value: number | null }
  | { readonly kind: 'refused'; readonly why: string };

/** Reads a typed number; a comma is taken as a decimal point, a true minus as a minus. */
export function parseNumber(text: string, range: NumberRange): NumberRead {
  const plain = text.trim().replace(',', '.').replace('\u2212', '-');
  if (plain === '') return range.mayBeEmpty ? { kind: 'read', value: null } : { kind: 'refused', why: rangeWords(range) };
  const value = Number(plain);
  if (!Number.isFinite(value) || value < range.min || value > range.max) return { kind: 'refused', why: rangeWords(range) };
  return { kind: 'read', value };
}

/** A number with at most so many decimals and no idle zeros. */
export function writeNumber(value: number, decimals: number): string {
  return String(Number(value.toFixed(decimals)));
}

function rangeWords({ min, max }: NumberRange): string {
  return `a number from ${writeNumber(min, 3)} to ${writeNumber(max, 3)}`;
}
