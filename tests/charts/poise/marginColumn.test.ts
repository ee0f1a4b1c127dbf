/** The margins on the rows: scale and what is worked out for the paths, against places by hand. */
import { describe, expect, it } from 'vitest';
import { unknownBalance } from '../../../src/balance/unknownBalance.ts';
import { VERDICTS, type Balance } from '../../../src/balance/balance.ts';
import { marginPaths, marginScale, marginSpanNames, marginTicks, MARGIN_PAD } from '../../../src/charts/poise/marginColumn.ts';
import { rowScale } from '../../../src/charts/rowScale.ts';

const WIDE = 480;

/** 10 steps from +20 down to −16 mm, 4 mm a step; step 4 (from 0) was not judged. */
function falling(): Balance {
  const balance = unknownBalance(10, ['leftFoot']);
  for (let s = 0; s < 10; s++) {
    if (s === 4) continue;
    balance.standMm[s] = 20 - 4 * s;
    balance.moveMm[s] = 18 - 4 * s;
    balance.marginSigmaMm[s] = 2;
    balance.standVerdict[s] = VERDICTS.indexOf(s < 4 ? 'holds' : s < 7 ? 'marginal' : 'falls');
  }
  return { ...balance, oneLeg: [{ foot: 'leftFoot', fromStep: 2, toStep: 9, worstStep: 9, worstMm: -16 }] };
}

const rows = rowScale(10, 24);
const all = { first: 0, last: 9 };
const input = { balance: falling(), wantedMm: 3, widthPx: WIDE };
const pathsOf = (some: Partial<Parameters<typeof marginPaths>[2]> = {}, scale = rows, window = all): Readonly<Record<string, string>> =>
  Object.fromEntries(marginPaths(scale, window, { ...input, ...some }).map(({ name, d }) => [name, d]));
const moves = (d: string): number => d.match(/M/g)?.length ?? 0;

describe('the scale', () => {
  it('has outside at the left of zero and inside at the right, within its pads', () => {
    const x = marginScale(falling(), 3, WIDE);
    expect(x(-16)).toBeLessThan(x(0));
    expect(x(20)).toBeGreaterThan(x(0));
    expect(x(-16)).toBeGreaterThanOrEqual(MARGIN_PAD.left);
    expect(x(20)).toBeLessThanOrEqual(WIDE - MARGIN_PAD.right);
  });

  it('is not flattened by one far stride, and keeps it at the border', () => {
    const count = 200;
    const balance = unknownBalance(count);
    for (let s = 0; s < count; s++) balance.standMm[s] = s === 50 ? -400 : 10;
    const x = marginScale(balance, 3, WIDE);
    expect(x.domain()[0]).toBeGreaterThan(-50);
    expect(x(-400)).toBe(MARGIN_PAD.left);
  });

  it('has ticks with whole millimetres where it draws them', () => {
    const ticks = marginTicks(falling(), 3, WIDE);
    const x = marginScale(falling(), 3, WIDE);
    expect(ticks.find(({ words }) => words === '0')!.x).toBe(x(0));
    for (let k = 1; k < ticks.length; k++) expect(ticks[k]!.x).toBeGreaterThan(ticks[k - 1]!.x);
  });
});

describe('what is drawn', () => {
  it('is a line through the margins, with a break and hatching where nothing is known', () => {
    const x = marginScale(falling(), 3, WIDE);
    const { 'margin-stand': stand, 'margin-unknown': unknown, 'margin-band': band } = pathsOf();
    expect(stand!.startsWith(`M${x(20)},12`)).toBe(true);
    expect(moves(stand!)).toBe(2);
    expect(unknown).toBe(`M${MARGIN_PAD.left},96H${WIDE - MARGIN_PAD.right}V120H${MARGIN_PAD.left}z`);
    // one band on each side of the break, 2 mm to each side
    expect(moves(band!)).toBe(2);
    expect(band).toContain(`M${x(22).toFixed(1)},12`);
  });

  it('has a sign on each row, full where it falls, and none on rows too low for one', () => {
    expect(moves(pathsOf()['verdict-full']!)).toBe(3 * 2);
    expect(pathsOf({}, rowScale(10, 4))['verdict-full']).toBe('');
    expect(pathsOf({}, rowScale(10, 4))['verdict-outline']).toBe('');
  });

  it('has the whiles on one leg as bars with a ring about the worst step', () => {
    const { 'one-leg': bars, 'one-leg-worst': worst } = pathsOf();
    expect(bars).toBe('M22,49h8v190h-8z');
    expect(worst!.startsWith(`M${marginScale(falling(), 3, WIDE)(-16)},228`)).toBe(true);
    expect(marginSpanNames(rows, all, falling())).toEqual([{ key: 'leftFoot2', x: 14, y: 54, text: 'on the left foot' }]);
    expect(marginSpanNames(rowScale(10, 4), all, falling())).toEqual([]);
  });

  it('has margins after a correction only where one is looked at', () => {
    expect(pathsOf()['margin-after']).toBe('');
    expect(pathsOf({ afterMm: new Float64Array(10).fill(5) })['margin-after']).not.toBe('');
  });

  it('never says NaN: of nothing known, of no rows', () => {
    for (const d of Object.values(pathsOf({ balance: unknownBalance(10) }))) expect(d).not.toContain('NaN');
    for (const d of Object.values(pathsOf({ balance: unknownBalance(0) }, rowScale(0, 24), { first: 0, last: -1 }))) expect(d).not.toContain('NaN');
  });
});
