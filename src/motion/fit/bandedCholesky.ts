/**
 * Cholesky of a block-banded matrix (each block of unknowns meets itself and the two before it), and of that matrix with a
 * dense border. Kept apart from the fit, so that it can be held against a plain dense solve.
 *
 * Storage: row i of block t holds the 3·m columns of blocks t-2, t-1 and t side by side, `band[i·3m + c]` with
 * column c + (t-2)·m of the matrix; only columns up to the diagonal are used. Rows are contiguous, so the inner products run
 * along memory.
 */

/**
 * Factors in place: band = L·Lᵀ.
 *
 * @param band [n·3m] lower part, overwritten with L; the diagonal then holds the inverse of L's diagonal (every later use is a product)
 * @param blocks number of blocks; n = blocks·m
 * @param m unknowns of a block
 * @returns false where the matrix is not positive definite (band is then in ruins)
 */
export function factorBand(band: Float64Array, blocks: number, m: number): boolean {
  for (let t = 0; t < blocks; t++) if (!factorBlock(band, t, m)) return false;
  return true;
}

/** Factors block row t, all earlier ones being done: two triangular solves against them, then the diagonal block. */
function factorBlock(band: Float64Array, t: number, m: number): boolean {
  const width = 3 * m;
  const here = t * m * width;
  const before = here - m * width;
  const early = before - m * width;
  if (t >= 2) divideByTriangle(band, here, early + 2 * m, m);
  if (t >= 1) {
    // Columns of block t-1 stand at m in block row t and at 2m in block row t-1; those of t-2 at 0 and at m.
    if (t >= 2) subtractProduct(band, here + m, width, band, here, width, band, before + m, width, m, m, m, false);
    divideByTriangle(band, here + m, before + 2 * m, m);
  }
  if (t >= 2) subtractProduct(band, here + 2 * m, width, band, here, width, band, here, width, m, m, m, true);
  if (t >= 1) subtractProduct(band, here + 2 * m, width, band, here + m, width, band, here + m, width, m, m, m, true);
  for (let r = 0; r < m; r++) {
    const row = here + r * width + 2 * m;
    for (let c = 0; c < r; c++) {
      const other = here + c * width + 2 * m;
      band[row + c] = (band[row + c]! - dotSpan(band, row, other, c)) * band[other + c]!;
    }
    const pivot = band[row + r]! - dotSpan(band, row, row, r);
    if (!(pivot > 0) || !Number.isFinite(pivot)) return false;
    band[row + r] = 1 / Math.sqrt(pivot);
  }
  return true;
}

/** X ← X·L⁻ᵀ for the m × m block at `x`, L the factored diagonal block at `l`; rows are 3m apart. */
function divideByTriangle(band: Float64Array, x: number, l: number, m: number): void {
  const width = 3 * m;
  for (let r = 0; r < m; r++) {
    const row = x + r * width;
    for (let c = 0; c < m; c++) {
      const other = l + c * width;
      band[row + c] = (band[row + c]! - dotSpan(band, row, other, c)) * band[other + c]!;
    }
  }
}

/**
 * C ← C - A·Bᵀ, `rows` × `columns` over `depth` terms; each matrix is given by its array, its first element and the distance of its
 * rows. Two rows by two columns at a time, so that each load serves twice. With `lower`, entries right of the diagonal may or
 * may not be written.
 */
function subtractProduct(
  c: Float64Array, cAt: number, cRow: number, a: Float64Array, aAt: number, aRow: number, b: Float64Array, bAt: number, bRow: number,
  rows: number, columns: number, depth: number, lower: boolean,
): void {
  const evenRows = rows & ~1;
  const evenColumns = columns & ~1;
  for (let r = 0; r < evenRows; r += 2) {
    const a0 = aAt + r * aRow;
    const a1 = a0 + aRow;
    const last = lower ? Math.min(evenColumns, r + 2) : evenColumns;
    for (let q = 0; q < last; q += 2) {
      const b0 = bAt + q * bRow;
      const b1 = b0 + bRow;
      let s00 = 0;
      let s01 = 0;
      let s10 = 0;
      let s11 = 0;
      for (let k = 0; k < depth; k++) {
        const x0 = a[a0 + k]!;
        const x1 = a[a1 + k]!;
        const y0 = b[b0 + k]!;
        const y1 = b[b1 + k]!;
        s00 += x0 * y0;
        s01 += x0 * y1;
        s10 += x1 * y0;
        s11 += x1 * y1;
      }
      const at = cAt + r * cRow + q;
      c[at] = c[at]! - s00;
      c[at + 1] = c[at + 1]! - s01;
      c[at + cRow] = c[at + cRow]! - s10;
      c[at + cRow + 1] = c[at + cRow + 1]! - s11;
    }
  }
  // The odd last row and column.
  for (let r = 0; r < rows; r++) {
    for (let q = r < evenRows ? evenColumns : 0; q < (lower ? Math.min(columns, r + 1) : columns); q++) {
      c[cAt + r * cRow + q] = c[cAt + r * cRow + q]! - dotTwo(a, aAt + r * aRow, b, bAt + q * bRow, depth);
    }
  }
}

function dotSpan(a: Float64Array, i: number, j: number, count: number): number {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  const whole = count & ~3;
  let k = 0;
  for (; k < whole; k += 4) {
    s0 += a[i + k]! * a[j + k]!;
    s1 += a[i + k + 1]! * a[j + k + 1]!;
    s2 += a[i + k + 2]! * a[j + k + 2]!;
    s3 += a[i + k + 3]! * a[j + k + 3]!;
  }
  for (; k < count; k++) s0 += a[i + k]! * a[j + k]!;
  return s0 + s1 + s2 + s3;
}

function dotTwo(a: Float64Array, i: number, b: Float64Array, j: number, count: number): number {
  let s0 = 0;
  let s1 = 0;
  let s2 = 0;
  let s3 = 0;
  const whole = count & ~3;
  let k = 0;
  for (; k < whole; k += 4) {
    s0 += a[i + k]! * b[j + k]!;
    s1 += a[i + k + 1]! * b[j + k + 1]!;
    s2 += a[i + k + 2]! * b[j + k + 2]!;
    s3 += a[i + k + 3]! * b[j + k + 3]!;
  }
  for (; k < count; k++) s0 += a[i + k]! * b[j + k]!;
  return s0 + s1 + s2 + s3;
}

/** Solves L·y = b in place; b stands at `b[at..at+n)`. */
export function forwardSolve(band: Float64Array, blocks: number, m: number, b: Float64Array, at: number): void {
  for (let t = 0; t < blocks; t++) forwardBlock(band, t, m, b, at);
}

function forwardBlock(band: Float64Array, t: number, m: number, b: Float64Array, at: number): void {
  const width = 3 * m;
  const first = Math.max(0, t - 2) * m;
  for (let i = t * m; i < (t + 1) * m; i++) {
    const row = i * width - (t - 2) * m;
    b[at + i] = (b[at + i]! - dotTwo(band, row + first, b, at + first, i - first)) * band[row + i]!;
  }
}

/** Solves Lᵀ·x = y in place. */
export function backwardSolve(band: Float64Array, blocks: number, m: number, y: Float64Array): void {
  const width = 3 * m;
  for (let t = blocks - 1; t >= 0; t--) {
    const first = Math.max(0, t - 2) * m;
    for (let i = (t + 1) * m - 1; i >= t * m; i--) {
      const row = i * width - (t - 2) * m;
      const x = y[i]! * band[row + i]!;
      y[i] = x;
      for (let j = first; j < i; j++) y[j] = y[j]! - band[row + j]! * x;
    }
  }
}

/**
 * Solves [A Bᵀ; B D]·[x; z] = [b; c] with A block-banded, by the Schur complement of A. All arguments are overwritten.
 *
 * @param band A as above, [n·3m]
 * @param border B, [g·n], one row for each unknown of the border
 * @param corner D, [g·g], full and symmetric
 * @param main b in, x out [n]
 * @param edge c in, z out [g]
 * @returns false where the whole matrix is not positive definite
 */
export function solveBordered(
  band: Float64Array, blocks: number, m: number,
  border: Float64Array, corner: Float64Array, main: Float64Array, edge: Float64Array,
): boolean {
  const n = blocks * m;
  const g = edge.length;
  // Block by block, so that what is used together is still in the processor's near memory.
  for (let t = 0; t < blocks; t++) {
    if (!factorBlock(band, t, m)) return false;
    forwardBlock(band, t, m, main, 0);
    const from = t * m;
    const back = Math.min(t, 2) * m;
    const row = from * 3 * m;
    subtractProduct(border, from, n, border, from - back, n, band, row + 2 * m - back, 3 * m, g, m, back, false);
    for (let k = 0; k < g; k++) {
      const at = k * n + from;
      for (let i = 0; i < m; i++) {
        const l = row + i * 3 * m + 2 * m;
        border[at + i] = (border[at + i]! - dotTwo(band, l, border, at, i)) * band[l + i]!;
      }
      edge[k] = edge[k]! - dotTwo(border, at, main, from, m);
    }
    subtractProduct(corner, 0, g, border, from, n, border, from, n, g, g, m, true);
  }
  if (!solveDense(corner, edge)) return false;
  for (let k = 0; k < g; k++) {
    const z = edge[k]!;
    const row = k * n;
    for (let i = 0; i < n; i++) main[i] = main[i]! - border[row + i]! * z;
  }
  backwardSolve(band, blocks, m, main);
  return true;
}

/**
 * Solves A·x = b for a small dense symmetric positive definite A (its lower part is read), both overwritten.
 *
 * @returns false where A is not positive definite
 */
export function solveDense(a: Float64Array, b: Float64Array): boolean {
  const n = b.length;
  for (let i = 0; i < n; i++) {
    for (let j = 0; j <= i; j++) {
      const sum = a[i * n + j]! - dotSpan(a, i * n, j * n, j);
      if (j < i) a[i * n + j] = sum * a[j * n + j]!;
      else if (!(sum > 0) || !Number.isFinite(sum)) return false;
      else a[i * n + i] = 1 / Math.sqrt(sum);
    }
    b[i] = (b[i]! - dotTwo(a, i * n, b, 0, i)) * a[i * n + i]!;
  }
  for (let i = n - 1; i >= 0; i--) {
    const x = b[i]! * a[i * n + i]!;
    b[i] = x;
    for (let j = 0; j < i; j++) b[j] = b[j]! - a[i * n + j]! * x;
  }
  return true;
}

/**
 * A diagonal entry of A⁻¹ from the factor that {@link solveDense} (or {@link solveBordered}, of the border's Schur complement)
 * left in place of A [n·n].
 */
export function inverseDiagonal(factor: Float64Array, n: number, index: number): number {
  const x = new Float64Array(n);
  x[index] = factor[index * n + index]!;
  let sum = x[index]! ** 2;
  for (let i = index + 1; i < n; i++) {
    x[i] = -dotTwo(factor, i * n + index, x, index, i - index) * factor[i * n + i]!;
    sum += x[i]! ** 2;
  }
  return sum;
}
