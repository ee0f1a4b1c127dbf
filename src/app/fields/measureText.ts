/**
 * Lengths, weights and angles as people type them, with their unit or without: `120`, `120 mm`, `12 cm`, `3 in`, `4 3/4"`,
 * `1.5 oz`. Inside there are only millimetres, grams and degrees.
 */
import { type NumberRange, type NumberRead, writeNumber } from './numberText.ts';

export const UNIT_SYSTEMS = ['mm', 'in'] as const;
/** What lengths and weights are shown in: mm and g, or inches and ounces. */
export type UnitSystem = (typeof UNIT_SYSTEMS)[number];

export type Quantity = 'length' | 'mass' | 'angle';

/** Exact by definition: the international inch (1959) and the avoirdupois ounce. */
const MM_PER_IN = 25.4;
const G_PER_OZ = 28.349523125;

/** How much of the base unit (mm, g, °) one of each is. */
const UNITS: Readonly<Record<Quantity, Readonly<Record<string, number>>>> = {
  length: { mm: 1, cm: 10, m: 1000, in: MM_PER_IN, inch: MM_PER_IN, inches: MM_PER_IN, '"': MM_PER_IN, '\u2033': MM_PER_IN, '\u201d': MM_PER_IN },
  mass: { g: 1, kg: 1000, oz: G_PER_OZ, lb: 16 * G_PER_OZ },
  angle: { '\u00b0': 1, deg: 1, degrees: 1 },
};

/** Unit in which a quantity is shown, what one of it is in the base unit, and its decimals. */
export function shownUnit(quantity: Quantity, system: UnitSystem): { readonly unit: string; readonly size: number; readonly decimals: number } {
  if (quantity === 'angle') return { unit: '°', size: 1, decimals: 2 };
  if (quantity === 'mass') return system === 'in' ? { unit: 'oz', size: G_PER_OZ, decimals: 3 } : { unit: 'g', size: 1, decimals: 1 };
  return system === 'in' ? { unit: 'in', size: MM_PER_IN, decimals: 3 } : { unit: 'mm', size: 1, decimals: 2 };
}

/** A measure in the base unit as it is written, e.g. `120 mm`, `4.724 in`; a dash where there is none. */
export function writeMeasure(value: number | null | undefined, quantity: Quantity, system: UnitSystem): string {
  if (value === null || value === undefined || !Number.isFinite(value)) return '–';
  const { unit, size, decimals } = shownUnit(quantity, system);
  return `${writeNumber(value / size, decimals).replace('-', '\u2212')}${unit === '°' ? '' : ' '}${unit}`;
}

const NUMBER = /^([-\u2212]?)(?:(\d+)[ -](\d+)\/(\d+)|(\d+)\/(\d+)|(\d*[.,]?\d+|\d+[.,]))\s*(.*)$/;

/**
 * Reads a typed measure; without a unit it is in the one that is shown.
 *
 * @param range in the unit that is shown, as is the result
 */
export function parseMeasure(text: string, quantity: Quantity, system: UnitSystem, range: NumberRange): NumberRead {
  const plain = text.trim();
  const { unit, size, decimals } = shownUnit(quantity, system);
  const allowed = `from ${writeNumber(range.min, decimals)} to ${writeNumber(range.max, decimals)} ${unit}`;
  if (plain === '') return range.mayBeEmpty ? { kind: 'read', value: null } : { kind: 'refused', why: allowed };
  const found = NUMBER.exec(plain);
  if (found === null) return { kind: 'refused', why: `a number ${allowed}` };
  const [, minus, whole, top, bottom, onlyTop, onlyBottom, decimal, tail] = found;
  const size0 = decimal !== undefined ? Number(decimal.replace(',', '.')) : Number(whole ?? 0) + Number(top ?? onlyTop) / Number(bottom ?? onlyBottom);
  const known = UNITS[quantity];
  const name = (tail ?? '').trim().toLowerCase().replace(/\.$/, '');
  if (name !== '' && !Object.hasOwn(known, name)) return { kind: 'refused', why: `“${name}” is not known here; write ${quantity === 'length' ? 'mm, cm or in' : quantity === 'mass' ? 'g, kg or oz' : '°'}` };
  const value = ((minus === '' ? 1 : -1) * size0 * (name === '' ? 1 : known[name]! / size));
  if (!Number.isFinite(value) || value < range.min - 1e-9 || value > range.max + 1e-9) return { kind: 'refused', why: allowed };
  return { kind: 'read', value };
}
