// Signed distance fields: the clay the figure is made of. Negative inside, metres, in the bind pose.
import { dot, sub, unit, type Vec3 } from '../motion/rotation.ts';

/** Distance to a surface at (x, y, z); near the surface its slope is about 1. */
export type Field = (x: number, y: number, z: number) => number;

/** A cone with round ends: sphere of radius ra at a, rb at b, and their hull. */
export function roundCone(a: Vec3, b: Vec3, ra: number, rb: number): Field {
  const ab = sub(b, a);
  const l2 = dot(ab, ab);
  const dr = ra - rb;
  const a2 = l2 - dr * dr;
  if (a2 <= 0) return ra > rb ? sphere(a, ra) : sphere(b, rb);
  const il2 = 1 / l2;
  return (x, y, z) => {
    const px = x - a[0], py = y - a[1], pz = z - a[2];
    const along = px * ab[0] + py * ab[1] + pz * ab[2];
    const beyond = along - l2;
    const qx = px * l2 - ab[0] * along, qy = py * l2 - ab[1] * along, qz = pz * l2 - ab[2] * along;
    const x2 = qx * qx + qy * qy + qz * qz;
    const y2 = along * along * l2;
    const z2 = beyond * beyond * l2;
    const k = Math.sign(dr) * dr * dr * x2;
    if (Math.sign(beyond) * a2 * z2 > k) return Math.sqrt(x2 + z2) * il2 - rb;
    if (Math.sign(along) * a2 * y2 < k) return Math.sqrt(x2 + y2) * il2 - ra;
    return (Math.sqrt(x2 * a2 * il2) + along * dr) * il2 - ra;
  };
}

/** A ball around c. */
export function sphere(c: Vec3, r: number): Field {
  return (x, y, z) => Math.hypot(x - c[0], y - c[1], z - c[2]) - r;
}

/** An ellipsoid along the axes; the distance is exact to first order at the surface. */
export function ellipsoid(c: Vec3, r: Vec3): Field {
  const smallest = Math.min(r[0], r[1], r[2]);
  return (x, y, z) => {
    const ux = (x - c[0]) / r[0], uy = (y - c[1]) / r[1], uz = (z - c[2]) / r[2];
    const k0 = Math.hypot(ux, uy, uz);
    const k1 = Math.hypot(ux / r[0], uy / r[1], uz / r[2]);
    return k1 < 1e-9 ? -smallest : (k0 * (k0 - 1)) / k1;
  };
}

/** A box with rounded edges, along the axes. */
export function box(c: Vec3, half: Vec3, round: number): Field {
  return (x, y, z) => {
    const qx = Math.abs(x - c[0]) - half[0] + round;
    const qy = Math.abs(y - c[1]) - half[1] + round;
    const qz = Math.abs(z - c[2]) - half[2] + round;
    return Math.hypot(Math.max(qx, 0), Math.max(qy, 0), Math.max(qz, 0)) + Math.min(Math.max(qx, qy, qz), 0) - round;
  };
}

/** The half-space behind a plane through `point` that faces along `normal`. */
export function behind(point: Vec3, normal: Vec3): Field {
  const n = unit(normal);
  const d = dot(n, point);
  return (x, y, z) => n[0] * x + n[1] * y + n[2] * z - d;
}

/** Polynomial smooth minimum with a seam k metres wide. */
export function blendDistances(a: number, b: number, k: number): number {
  const h = Math.max(k - Math.abs(a - b), 0) / k;
  return Math.min(a, b) - (h * h * k) / 4;
}

/** What lies in any of the fields, with seams k metres wide. */
export const union = (k: number, ...fields: readonly Field[]): Field => (x, y, z) => {
  let d = Infinity;
  for (const f of fields) d = d === Infinity ? f(x, y, z) : blendDistances(d, f(x, y, z), k);
  return d;
};

/** What of a lies outside b, with a seam k wide. */
export const carve = (k: number, a: Field, ...cuts: readonly Field[]): Field => (x, y, z) => {
  let d = a(x, y, z);
  for (const cut of cuts) d = -blendDistances(-d, cut(x, y, z), k);
  return d;
};

/** What a and b share, with a seam k wide. */
export const common = (k: number, ...fields: readonly Field[]): Field => (x, y, z) => {
  let d = -Infinity;
  for (const f of fields) d = d === -Infinity ? f(x, y, z) : -blendDistances(-d, -f(x, y, z), k);
  return d;
};

/** a, thicker by `by` metres at each point. */
export const swollen = (a: Field, by: (x: number, y: number, z: number) => number): Field =>
  (x, y, z) => a(x, y, z) - by(x, y, z);
