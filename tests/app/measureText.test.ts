import { describe, expect, it } from 'vitest';
import { parseMeasure, shownUnit, writeMeasure } from '../../src/app/fields/measureText.ts';

const range = { min: 0, max: 1000, mayBeEmpty: false };
const read = (text: string, quantity: 'length' | 'mass' | 'angle' = 'length', system: 'mm' | 'in' = 'mm'): number | string | null => {
  const got = parseMeasure(text, quantity, system, range);
  return got.kind === 'read' ? got.value : got.why;
};

describe('measures as people type them', () => {
  it('take the unit that is shown when none is typed', () => {
    expect(read('120')).toBe(120);
    expect(read('3', 'length', 'in')).toBe(3);
  });

  it('take any other unit of the kind', () => {
    expect(read('3 in')).toBeCloseTo(76.2, 12);
    expect(read('3in')).toBeCloseTo(76.2, 12);
    expect(read('4 3/4"')).toBeCloseTo(120.65, 12);
    expect(read('1/2 in')).toBeCloseTo(12.7, 12);
    expect(read('12,5 cm')).toBe(125);
    expect(read('76.2 mm', 'length', 'in')).toBeCloseTo(3, 12);
    expect(read('1 oz', 'mass')).toBeCloseTo(28.349523125, 9);
    expect(read('0.2 kg', 'mass')).toBe(200);
    expect(read('30°', 'angle')).toBe(30);
  });

  it('refuse what is none, in words', () => {
    expect(read('tall')).toMatch(/a number from 0 to 1000 mm/);
    expect(read('3 g')).toMatch(/“g” is not known here; write mm/);
    expect(read('1200')).toBe('from 0 to 1000 mm');
    expect(read('-3')).toBe('from 0 to 1000 mm');
    expect(read('1/0 in')).toBe('from 0 to 1000 mm');
    expect(read('')).toBe('from 0 to 1000 mm');
    expect(parseMeasure('', 'length', 'mm', { ...range, mayBeEmpty: true })).toEqual({ kind: 'read', value: null });
    expect(parseMeasure('−12.5°', 'angle', 'mm', { min: -90, max: 90, mayBeEmpty: false })).toEqual({ kind: 'read', value: -12.5 });
  });

  it('are written with their unit', () => {
    expect(writeMeasure(120, 'length', 'mm')).toBe('120 mm');
    expect(writeMeasure(120, 'length', 'in')).toBe('4.724 in');
    expect(writeMeasure(-3.5, 'angle', 'in')).toBe('−3.5°');
    expect(writeMeasure(null, 'mass', 'mm')).toBe('–');
    expect(shownUnit('mass', 'in').unit).toBe('oz');
  });
});
