/** The small least-squares problem of laying one face (head.ts), solved some ten thousand times a take: nothing is made anew for a row. */
import { solveDense } from './bandedCholesky.ts';

/** Normal equations of up to six unknowns, gathered row by row. */
export class FaceEquations {
  private readonly unknowns: number;
  private readonly a: Float64Array;
  private readonly b: Float64Array;
  private readonly row = new Float64Array(6);

  constructor(unknowns: number) {
    this.unknowns = unknowns;
    this.a = new Float64Array(unknowns * unknowns);
    this.b = new Float64Array(unknowns);
  }

  clear(): void {
    this.a.fill(0);
    this.b.fill(0);
  }

  /** A row of slopes by turns (3), shifts (2), size, with its residual and weight. */
  add(r0: number, r1: number, r2: number, r3: number, r4: number, r5: number, residual: number, weight: number): void {
    const { a, b, row, unknowns } = this;
    row[0] = r0; row[1] = r1; row[2] = r2; row[3] = r3; row[4] = r4; row[5] = r5;
    for (let i = 0; i < unknowns; i++) {
      const by = weight * row[i]!;
      if (by === 0) continue;
      for (let j = 0; j <= i; j++) a[i * unknowns + j] = a[i * unknowns + j]! + by * row[j]!;
      b[i] = b[i]! - by * residual;
    }
  }

  /** The step, or `null` where the equations have no one answer. */
  solve(): Float64Array | null {
    const { a, b, unknowns } = this;
    for (let i = 0; i < unknowns; i++) for (let j = 0; j < i; j++) a[j * unknowns + i] = a[i * unknowns + j]!;
    return solveDense(a, b) ? b : null;
  }
}
