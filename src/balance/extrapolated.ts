/**
 * The extrapolated centre of mass: where a body that falls like an inverted pendulum would have to put its foot.
 * Hof, Gazendam & Sinke 2005, J Biomech 38:1-8: XCoM = x + v / ω₀ with ω₀ = √(g / l), l the length of the pendulum.
 */
import { GRAVITY_M_S2 } from '../puppet/timeScale.ts';

/** ω₀ of a pendulum, 1/s. */
export function pendulumRate(lengthM: number): number {
  return Math.sqrt(GRAVITY_M_S2 / lengthM);
}

/**
 * Over the floor, `[N·2]` X, Z, in the unit of the path; NaN where the path is. Speeds by differences between the neighbours
 * on both sides, as far as they are known; a lone moment has none.
 *
 * The film shows the puppet at the size it is to read as. There every length is k times the puppet's and time is the film's, so
 * x + v / ω₀ keeps its form in the puppet's millimetres, with the ω₀ of the figure that is read and not of the puppet.
 *
 * @param path `[N·3]` centre of mass
 * @param filmTimeS `[N]` seconds on the film
 * @param rate ω₀, 1/s
 */
export function extrapolated(path: Float64Array, filmTimeS: Float64Array, rate: number): Float64Array {
  const count = filmTimeS.length;
  const out = new Float64Array(count * 2).fill(Number.NaN);
  const known = (s: number): boolean => s >= 0 && s < count && !Number.isNaN(path[s * 3]!);
  for (let s = 0; s < count; s++) {
    if (!known(s)) continue;
    const before = known(s - 1) ? s - 1 : s;
    const after = known(s + 1) ? s + 1 : s;
    const dt = filmTimeS[after]! - filmTimeS[before]!;
    for (const [k, c] of [[0, 0], [1, 2]] as const) {
      const speed = dt > 0 ? (path[after * 3 + c]! - path[before * 3 + c]!) / dt : 0;
      out[s * 2 + k] = path[s * 3 + c]! + speed / rate;
    }
  }
  return out;
}
