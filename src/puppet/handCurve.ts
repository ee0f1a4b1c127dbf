/**
 * Curves set by hand, for joints that no performer has: jaw, eyelid, tail, ears.
 */
import { hermite, pchipSlopes } from '../numeric/pchip.ts';
import type { CurveKey, Ease } from './puppetSettings.ts';

/**
 * Values of a curve, degrees. Before the first key its value, after the last key that one's.
 *
 * Slow in and slow out: 3u² - 2u³ (cubic); soft start u², soft end 1 - (1 - u)².
 *
 * @param keys at least one, rising in time
 * @param atS moments, any order
 */
export function curveValues(keys: readonly CurveKey[], atS: ArrayLike<number>): Float64Array {
  const x = Float64Array.from(keys, ({ timeS }) => timeS);
  const y = Float64Array.from(keys, ({ valueDeg }) => valueDeg);
  const slopes = pchipSlopes(x, y);
  const last = keys.length - 1;
  return Float64Array.from(atS, (at) => {
    if (last < 0 || !(at > x[0]!)) return y[0] ?? 0;
    if (at >= x[last]!) return y[last]!;
    let k = 0;
    while (x[k + 1]! <= at) k++;
    const h = x[k + 1]! - x[k]!;
    const u = (at - x[k]!) / h;
    const { ease } = keys[k]!;
    if (ease === 'smooth') return hermite(h, u, y[k]!, y[k + 1]!, slopes[k]!, slopes[k + 1]!);
    return y[k]! + (y[k + 1]! - y[k]!) * easeShare(ease, u);
  });
}

function easeShare(ease: Exclude<Ease, 'smooth'>, u: number): number {
  switch (ease) {
    case 'soft': return u * u * (3 - 2 * u);
    case 'soft start': return u * u;
    case 'soft end': return u * (2 - u);
    case 'straight': return u;
    case 'stay': return 0;
  }
}
