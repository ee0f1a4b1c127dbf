// How a value goes from key to key, and how a held value stays alive.

/** [time in s, value]. */
export type Key = readonly [number, number];

/** Position on a minimum-jerk path from 0 to 1 at u in 0..1: 10u^3 - 15u^4 + 6u^5 (Flash and Hogan 1985). */
export function minimumJerk(u: number): number {
  const v = Math.min(1, Math.max(0, u));
  return v * v * v * (10 - 15 * v + 6 * v * v);
}

/** Value at timeS of keys in rising time: at rest on every key, minimum jerk between; held outside. */
export function alongKeys(keys: readonly Key[], timeS: number): number {
  const first = keys[0];
  if (first === undefined) throw new Error('a curve without keys');
  let before = first;
  for (const key of keys) {
    if (key[0] > timeS) {
      if (key === first) return key[1];
      const u = (timeS - before[0]) / (key[0] - before[0]);
      return before[1] + (key[1] - before[1]) * minimumJerk(u);
    }
    before = key;
  }
  return before[1];
}

/** A twice differentiable curve through points in rising time, at rest at both ends (clamped cubic spline). */
export function splineThrough(points: readonly Key[]): (timeS: number) => number {
  const n = points.length;
  const t = points.map((p) => p[0]);
  const y = points.map((p) => p[1]);
  const num = (a: readonly number[], i: number): number => a[i] ?? 0;
  // Thomas algorithm on the second derivatives m.
  const c: number[] = [];
  const d: number[] = [];
  const step = (i: number): number => num(t, i + 1) - num(t, i);
  const slope = (i: number): number => (num(y, i + 1) - num(y, i)) / step(i);
  for (let i = 0; i < n; i++) {
    const lower = i === 0 ? 0 : step(i - 1);
    const upper = i === n - 1 ? 0 : step(i);
    const diagonal = 2 * (lower + upper);
    const right = 6 * ((i === n - 1 ? 0 : slope(i)) - (i === 0 ? 0 : slope(i - 1)));
    const w = diagonal - lower * (i === 0 ? 0 : num(c, i - 1));
    c.push(upper / w);
    d.push((right - lower * (i === 0 ? 0 : num(d, i - 1))) / w);
  }
  const m = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) m[i] = num(d, i) - num(c, i) * num(m, i + 1);
  return (timeS) => {
    if (timeS <= num(t, 0)) return num(y, 0);
    if (timeS >= num(t, n - 1)) return num(y, n - 1);
    let i = 0;
    while (num(t, i + 1) < timeS) i++;
    const h = step(i);
    const a = num(t, i + 1) - timeS;
    const b = timeS - num(t, i);
    return (num(m, i) * a ** 3 + num(m, i + 1) * b ** 3) / (6 * h)
      + (num(y, i) / h - (num(m, i) * h) / 6) * a
      + (num(y, i + 1) / h - (num(m, i + 1) * h) / 6) * b;
  };
}

/** A repeatable number in 0..1 from a text and a number (FNV-1a, then a finaliser). */
export function seeded(name: string, k: number): number {
  let h = 0x811c9dc5;
  for (const ch of `${name}#${k}`) h = Math.imul(h ^ ch.charCodeAt(0), 0x01000193);
  h = Math.imul(h ^ (h >>> 15), 0x2c1b3c6d);
  h = Math.imul(h ^ (h >>> 12), 0x297a2d39);
  return ((h ^ (h >>> 15)) >>> 0) / 4294967296;
}

/** Slow sway of about unit amplitude: three sines of 0.2 to 1.1 Hz with seeded phase. */
export function sway(name: string, timeS: number): number {
  let sum = 0;
  for (let k = 0; k < 3; k++) {
    const hz = 0.2 + 0.3 * k + 0.3 * seeded(name, 2 * k);
    sum += Math.sin(2 * Math.PI * (hz * timeS + seeded(name, 2 * k + 1))) / (1 + 0.8 * k);
  }
  return sum / 1.4;
}
