// From a field to a mesh: naive surface nets (one vertex per crossed cell, at the mean of its edge crossings).
import type { Field } from './field.ts';
import type { Vec3 } from '../motion/rotation.ts';

export interface Box {
  readonly low: Vec3;
  readonly high: Vec3;
}

/** positions[V*3] m, normals[V*3] unit outward, indices[T*3], anticlockwise seen from outside. */
export interface Surface {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  readonly indices: Uint32Array;
}

/** Samples per side of a block that is skipped whole when it lies far from the surface. */
const BLOCK = 8;
/** Fields are distances only roughly (ellipsoids): blocks are skipped with this much to spare. */
const SAFETY = 1.6;

/** Meshes the zero level of `field` inside `box` with cells of `cellM`. */
export function meshField(field: Field, box: Box, cellM: number): Surface {
  const nx = Math.ceil((box.high[0] - box.low[0]) / cellM) + 1;
  const ny = Math.ceil((box.high[1] - box.low[1]) / cellM) + 1;
  const nz = Math.ceil((box.high[2] - box.low[2]) / cellM) + 1;
  const grid = sampleGrid(field, box, cellM, nx, ny, nz);
  const at = (i: number, j: number, k: number): number => (k * ny + j) * nx + i;

  const cellVertex = new Int32Array(nx * ny * nz).fill(-1);
  const positions: number[] = [];
  for (let k = 0; k + 1 < nz; k++) for (let j = 0; j + 1 < ny; j++) for (let i = 0; i + 1 < nx; i++) {
    const point = crossing(grid, at, i, j, k);
    if (point === undefined) continue;
    cellVertex[at(i, j, k)] = positions.length / 3;
    for (let a = 0; a < 3; a++) positions.push((box.low[a as 0 | 1 | 2]) + cellM * (point[a as 0 | 1 | 2]));
  }

  const indices: number[] = [];
  const quad = (a: number, b: number, c: number, d: number, flip: boolean): void => {
    if (a < 0 || b < 0 || c < 0 || d < 0) return;
    if (flip) indices.push(a, c, b, a, d, c);
    else indices.push(a, b, c, a, c, d);
  };
  const cell = (i: number, j: number, k: number): number => cellVertex[at(i, j, k)] ?? -1;
  for (let k = 1; k + 1 < nz; k++) for (let j = 1; j + 1 < ny; j++) for (let i = 1; i + 1 < nx; i++) {
    const inside = (grid[at(i, j, k)] ?? 1) < 0;
    if (inside !== (grid[at(i + 1, j, k)] ?? 1) < 0) {
      quad(cell(i, j - 1, k - 1), cell(i, j, k - 1), cell(i, j, k), cell(i, j - 1, k), !inside);
    }
    if (inside !== (grid[at(i, j + 1, k)] ?? 1) < 0) {
      quad(cell(i - 1, j, k - 1), cell(i - 1, j, k), cell(i, j, k), cell(i, j, k - 1), !inside);
    }
    if (inside !== (grid[at(i, j, k + 1)] ?? 1) < 0) {
      quad(cell(i - 1, j - 1, k), cell(i, j - 1, k), cell(i, j, k), cell(i - 1, j, k), !inside);
    }
  }
  const points = new Float32Array(positions);
  return { positions: points, normals: normalsOf(field, points, cellM * 0.5), indices: new Uint32Array(indices) };
}

function sampleGrid(field: Field, box: Box, cellM: number, nx: number, ny: number, nz: number): Float32Array {
  const grid = new Float32Array(nx * ny * nz);
  const half = (BLOCK * cellM * Math.sqrt(3)) / 2;
  const at = (i: number, axis: 0 | 1 | 2): number => box.low[axis] + i * cellM;
  for (let k0 = 0; k0 < nz; k0 += BLOCK) for (let j0 = 0; j0 < ny; j0 += BLOCK) for (let i0 = 0; i0 < nx; i0 += BLOCK) {
    const mid = (BLOCK - 1) / 2;
    const centre = field(at(i0 + mid, 0), at(j0 + mid, 1), at(k0 + mid, 2));
    const far = Math.abs(centre) > half * SAFETY;
    for (let k = k0; k < Math.min(nz, k0 + BLOCK); k++) for (let j = j0; j < Math.min(ny, j0 + BLOCK); j++) {
      for (let i = i0; i < Math.min(nx, i0 + BLOCK); i++) {
        grid[(k * ny + j) * nx + i] = far ? centre : field(at(i, 0), at(j, 1), at(k, 2));
      }
    }
  }
  return grid;
}

const CORNERS: readonly Vec3[] = [
  [0, 0, 0], [1, 0, 0], [0, 1, 0], [1, 1, 0], [0, 0, 1], [1, 0, 1], [0, 1, 1], [1, 1, 1],
];
const EDGES: readonly (readonly [number, number])[] = [
  [0, 1], [2, 3], [4, 5], [6, 7], [0, 2], [1, 3], [4, 6], [5, 7], [0, 4], [1, 5], [2, 6], [3, 7],
];

/** Mean of the crossings on a cell's edges in grid units, or undefined when the surface misses the cell. */
function crossing(
  grid: Float32Array, at: (i: number, j: number, k: number) => number, i: number, j: number, k: number,
): Vec3 | undefined {
  const values = CORNERS.map((c) => grid[at(i + c[0], j + c[1], k + c[2])] ?? 1);
  let inside = 0;
  for (const v of values) if (v < 0) inside++;
  if (inside === 0 || inside === 8) return undefined;
  let n = 0, x = 0, y = 0, z = 0;
  for (const [a, b] of EDGES) {
    const va = values[a] ?? 1, vb = values[b] ?? 1;
    if (va < 0 === vb < 0) continue;
    const ca = CORNERS[a], cb = CORNERS[b];
    if (ca === undefined || cb === undefined) continue;
    const t = va / (va - vb);
    x += ca[0] + t * (cb[0] - ca[0]);
    y += ca[1] + t * (cb[1] - ca[1]);
    z += ca[2] + t * (cb[2] - ca[2]);
    n++;
  }
  return [i + x / n, j + y / n, k + z / n];
}

function normalsOf(field: Field, positions: Float32Array, h: number): Float32Array {
  const normals = new Float32Array(positions.length);
  for (let v = 0; v < positions.length; v += 3) {
    const x = positions[v] ?? 0, y = positions[v + 1] ?? 0, z = positions[v + 2] ?? 0;
    const gx = field(x + h, y, z) - field(x - h, y, z);
    const gy = field(x, y + h, z) - field(x, y - h, z);
    const gz = field(x, y, z + h) - field(x, y, z - h);
    const n = Math.hypot(gx, gy, gz) || 1;
    normals[v] = gx / n;
    normals[v + 1] = gy / n;
    normals[v + 2] = gz / n;
  }
  return normals;
}
