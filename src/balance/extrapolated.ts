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
 * on both sides, as far as they are known and weigh the same (what is picked up does not make the body fast); a lone moment has none.
 *
 * The film shows the puppet at the size it is to read as. There every length is k times the puppet's and time is the film's, so
 * x + v / ω₀ keeps its form in the puppet's millimetres, with the ω₀ of the figure that is read and not of the puppet.
 *
 * @param path `[N·3]` centre of mass
 * @param filmTimeS `[N]` seconds on the film
 * @param rate ω₀, 1/s
 * @param massG `[N]` of what the path is the centre of; where it isn't given it stays the same
 */
export function extrapolated(path: Float64Array, filmTimeS: Float64Array, rate: number, massG?: Float64Array): Float64Array {
  const count = filmTimeS.length;
  const out = new Float64Array(count * 2).fill(Number.NaN);
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(path[s * 3]!)) continue;
    const before = goesWith(path, massG, s, s - 1) ? s - 1 : s;
    const after = goesWith(path, massG, s, s + 1) ? s + 1 : s;
    const lead = after > before ? 1 / ((filmTimeS[after]! - filmTimeS[before]!) * rate) : 0;
    out[s * 2] = path[s * 3]! + (path[after * 3]! - path[before * 3]!) * lead;
    out[s * 2 + 1] = path[s * 3 + 2]! + (path[after * 3 + 2]! - path[before * 3 + 2]!) * lead;
  }
  return out;
}

function goesWith(path: Float64Array, massG: Float64Array | undefined, s: number, other: number): boolean {
  return other >= 0 && other * 3 < path.length && !Number.isNaN(path[other * 3]!) && (massG === undefined || massG[other] === massG[s]);
}
