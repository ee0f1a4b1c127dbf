// One garment or body part: a field to mesh, colours, and the bones that carry it.
import type { Joint } from '../motion/skeleton.ts';
import type { Field } from './field.ts';
import type { Box } from './surface.ts';
import type { Vec3 } from '../motion/rotation.ts';

/** Linear RGB, 0..1. */
export type Colour = readonly [number, number, number];

/** A bone and the shape by which it holds on to the part. */
export interface Holder {
  readonly bone: Joint;
  readonly shape: Field;
}

export interface Part {
  readonly name: string;
  readonly field: Field;
  readonly bounds: Box;
  readonly cellM: number;
  readonly holders: readonly Holder[];
  readonly roughness: number;
  readonly colour: (x: number, y: number, z: number) => Colour;
}

/** A box around points, wider by `margin` on every side. */
export function boxAround(points: readonly Vec3[], margin: number): Box {
  const along = (pick: (...n: number[]) => number, axis: 0 | 1 | 2): number => pick(...points.map((p) => p[axis]));
  return {
    low: [along(Math.min, 0) - margin, along(Math.min, 1) - margin, along(Math.min, 2) - margin],
    high: [along(Math.max, 0) + margin, along(Math.max, 1) + margin, along(Math.max, 2) + margin],
  };
}

/** A colour, lighter or darker. */
export const tint = (c: Colour, factor: number): Colour => [c[0] * factor, c[1] * factor, c[2] * factor];
/** A colour a share t of the way from a to b. */
export const blend = (a: Colour, b: Colour, t: number): Colour => {
  const u = Math.min(1, Math.max(0, t));
  return [a[0] + (b[0] - a[0]) * u, a[1] + (b[1] - a[1]) * u, a[2] + (b[2] - a[2]) * u];
};
