/**
 * The Savitzky-Golay filter, plainly: a polynomial by least squares in a window that slides, the ends from the first and
 * last window. Only here, as a yardstick: the program doesn't use it.
 */

/** Solves a small full system in place, with pivots. */
function solve(a: number[][], b: number[]): number[] {
  const n = b.length;
  for (let c = 0; c < n; c++) {
    let p = c;
    for (let r = c; r < n; r++) if (Math.abs(a[r]![c]!) > Math.abs(a[p]![c]!)) p = r;
    [a[c], a[p]] = [a[p]!, a[c]!];
    [b[c], b[p]] = [b[p]!, b[c]!];
    for (let r = c + 1; r < n; r++) {
      const f = a[r]![c]! / a[c]![c]!;
      for (let k = c; k < n; k++) a[r]![k]! -= f * a[c]![k]!;
      b[r]! -= f * b[c]!;
    }
  }
  for (let c = n - 1; c >= 0; c--) {
    for (let k = c + 1; k < n; k++) b[c]! -= a[c]![k]! * b[k]!;
    b[c]! /= a[c]![c]!;
  }
  return b;
}

/** Weights of the samples of one window for the value (or a derivative) at the sample `at` (the middle unless told). */
export function savgolCoefficients(window: number, degree: number, derivative: number, delta: number, at = (window - 1) / 2): number[] {
  const orders = Array.from({ length: degree + 1 }, (_, i) => i);
  const places = Array.from({ length: window }, (_, k) => k - at);
  const normal = orders.map((i) => orders.map((j) => places.reduce((sum, p) => sum + p ** (i + j), 0)));
  const factorial = orders.slice(1, derivative + 1).reduce((product, k) => product * k, 1);
  const row = solve(normal, orders.map((i) => (i === derivative ? factorial / delta ** derivative : 0)));
  return places.map((p) => orders.reduce((sum, i) => sum + row[i]! * p ** i, 0));
}

/** scipy's mode `interp`. */
export function savgolFilter(x: readonly number[], window: number, degree: number, derivative: number, delta: number): number[] {
  const half = (window - 1) / 2;
  return x.map((_, k) => {
    const from = Math.min(Math.max(0, k - half), x.length - window);
    return savgolCoefficients(window, degree, derivative, delta, k - from).reduce((sum, c, i) => sum + c * x[from + i]!, 0);
  });
}
