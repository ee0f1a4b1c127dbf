import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { csvText } from '../../src/export/csv.ts';
import { incrementsCsv } from '../../src/export/incrementsCsv.ts';
import { planToJson } from '../../src/export/planJson.ts';
import { examplePlan, exampleSettings, exampleTake } from './examplePlan.ts';

const text = incrementsCsv(examplePlan);
const rows = parse(text, { columns: true, record_delimiter: '\r\n' }) as Record<string, string>[];

describe('increments.csv', () => {
  it('has one row a step, all of the same width, lines ended with CRLF', () => {
    expect(rows).toHaveLength(examplePlan.stepCount);
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('names joint, quantity and unit in the head, no name twice', () => {
    const head = text.slice(0, text.indexOf('\r\n')).split(',');
    expect(head.slice(0, 5)).toEqual(['step', 'exposure', 'held for (exposures)', 'film time (s)', 'source time (s)']);
    for (const name of [
      'rightElbow flexion (deg)', 'rightElbow increment (deg)', 'rightElbow state', 'head turn from rest (deg)',
      'head turn about forward axis (deg)', 'head turn about up axis (deg)', 'head turn about right axis (deg)',
      'neck twist (deg)', 'leftClavicle (not observable) increment (deg)', 'state of the step',
    ]) expect(head).toContain(name);
    expect(new Set(head).size).toBe(head.length);
  });

  it('says the same as plan.json', () => {
    const { steps } = planToJson(examplePlan, exampleTake, exampleSettings);
    const number = (cell: string | undefined): number | null => (cell === '' ? null : Number(cell));
    steps.forEach((step, s) => {
      const row = rows[s]!;
      expect([Number(row.step), Number(row.exposure), Number(row['held for (exposures)'])]).toEqual([step.step, step.exposure, step.holds]);
      expect(number(row['film time (s)'])).toBe(step.filmTimeS);
      expect(number(row['rightElbow flexion (deg)'])).toBe(step.joints.rightElbow!.angleDeg);
      expect(number(row['rightElbow increment (deg)'])).toBe(step.joints.rightElbow!.incrementDeg);
      expect(number(row['rightShoulder turn about right axis (deg)'])).toBe(step.joints.rightShoulder!.turnDeg?.[2] ?? null);
      expect(row['rightElbow state']).toBe(step.joints.rightElbow!.state);
    });
    expect(rows.map((row) => row['state of the step'])).toContain('missing');
    expect(text).not.toContain('NaN');
  });
});

describe('text cells', () => {
  it('are quoted as RFC 4180 asks', () => {
    expect(csvText('plain')).toBe('plain');
    expect(csvText('a,b')).toBe('"a,b"');
    expect(csvText('say "so"\n')).toBe('"say ""so""\n"');
    expect(parse(csvText('a,"b"\r\nc'))).toEqual([['a,"b"\r\nc']]);
  });

  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', '\r=1'])('%j is not run as a formula', (cell) => {
    const [[read]] = parse(csvText(cell)) as [[string]];
    expect(read).toBe(`'${cell}`);
  });
});
