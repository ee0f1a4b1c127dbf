/** The stage floor: a grid in millimetres, every fifth line stronger. Lines only, so that what is under the floor is seen as well. */
import { BufferGeometry, type Color, Float32BufferAttribute, Group, LineBasicMaterial, LineSegments } from 'three';
import type { Box } from '../../charts/figure/figure.ts';

/** Distance between two lines of the grid for a floor so wide, mm: 5, 10, 20, 50 … so that there are at most forty. */
export function gridMm(wideMm: number): number {
  for (let power = 1; ; power *= 10) for (const k of [1, 2, 5]) if (k * power >= 5 && wideMm / (k * power) <= 40) return k * power;
}

export interface Floor {
  readonly group: Group;
  readonly stepMm: number;
  readonly setInk: (fine: Color, strong: Color) => void;
  readonly dispose: () => void;
}

/** A floor under a box, with half the box's height of room around it. */
export function makeFloor(box: Box): Floor {
  const room = Math.max(40, (box.max[1] - box.min[1]) * 0.3);
  const step = gridMm(Math.max(box.max[0] - box.min[0], box.max[2] - box.min[2]) + 2 * room);
  const strong = 5;
  const [x0, x1] = [Math.floor((box.min[0] - room) / step / strong) * strong, Math.ceil((box.max[0] + room) / step / strong) * strong];
  const [z0, z1] = [Math.floor((box.min[2] - room) / step / strong) * strong, Math.ceil((box.max[2] + room) / step / strong) * strong];
  const lines: Record<'fine' | 'strong', number[]> = { fine: [], strong: [] };
  for (let i = x0; i <= x1; i += 1) lines[i % strong === 0 ? 'strong' : 'fine'].push(i * step, 0, z0 * step, i * step, 0, z1 * step);
  for (let i = z0; i <= z1; i += 1) lines[i % strong === 0 ? 'strong' : 'fine'].push(x0 * step, 0, i * step, x1 * step, 0, i * step);
  const group = new Group();
  const materials = { fine: new LineBasicMaterial(), strong: new LineBasicMaterial() };
  const geometries = (['fine', 'strong'] as const).map((name) => {
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new Float32BufferAttribute(lines[name], 3));
    group.add(new LineSegments(geometry, materials[name]));
    return geometry;
  });
  return {
    group,
    stepMm: step,
    setInk: (fine, strongInk) => {
      materials.fine.color.copy(fine);
      materials.strong.color.copy(strongInk);
    },
    dispose: () => {
      for (const geometry of geometries) geometry.dispose();
      for (const material of Object.values(materials)) material.dispose();
    },
  };
}
