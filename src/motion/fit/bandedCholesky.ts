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
 * @param band [n·3m] lower part, overwritten with L
 * @param blocks number of blocks; n = blocks·m
 * @param m unknowns of a block
 * @returns false where the matrix is not positive definite (band is then in ruins)
 */
export function factorBand(band: Float64Array, blocks: number, m: number): boolean {
  const width = 3 * m;
  for (let t = 0; t < blocks; t++) {
    const first = Math.max(0, t - 2) * m;
    const shift = (t - 2) * m;
    for (let r = 0; r < m; r++) {
      const i = t * m + r;
      const rowI = i * width - shift;
      for (let j = first; j < i; j++) {
        const u = (j / m) | 0;
        const from = Math.max(first, Math.max(0, u - 2) * m);
        const rowJ = j * width - (u - 2) * m;
        const sum = dotSpan(band, rowI + from, rowJ + from, j - from);
        band[rowI + j] = (band[rowI + j]! - sum) * band[rowJ + j]!;
      }
      const pivot = band[rowI + i]! - dotSpan(band, rowI + first, rowI + first, i - first);
      if (!(pivot > 0) || !Number.isFinite(pivot)) return false;
      // The diagonal holds the inverse of L's diagonal: every later use is a product.
      band[rowI + i] = 1 / Math.sqrt(pivot);
    }
  }
  return true;
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
  const width = 3 * m;
  for (let t = 0; t < blocks; t++) {
    const first = Math.max(0, t - 2) * m;
    for (let i = t * m; i < (t + 1) * m; i++) {
      const row = i * width - (t - 2) * m;
      b[at + i] = (b[at + i]! - dotTwo(band, row + first, b, at + first, i - first)) * band[row + i]!;
    }
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
  if (!factorBand(band, blocks, m)) return false;
  forwardSolve(band, blocks, m, main, 0);
  for (let k = 0; k < g; k++) {
    forwardSolve(band, blocks, m, border, k * n);
    edge[k] = edge[k]! - dotTwo(border, k * n, main, 0, n);
    for (let l = 0; l <= k; l++) {
      corner[k * g + l] = corner[k * g + l]! - dotSpan(border, k * n, l * n, n);
    }
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
