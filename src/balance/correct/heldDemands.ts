/**
 * The demands that are held exactly while the least change is looked for, with the Cholesky factor of their products:
 * L·Lᵀ = A·W⁻¹·Aᵀ, a row for each demand that is held. One more is a row more; one less is put right by plane rotations.
 */
export class HeldDemands {
  /** Which demands, in the order of the rows. */
  readonly which: number[] = [];
  private readonly rows: Float64Array[] = [];
  private capacity = 32;

  get count(): number {
    return this.which.length;
  }

  /** L⁻¹g, into `out`; returns its squared length. */
  halfSolve(g: ArrayLike<number>, out: Float64Array): number {
    let square = 0;
    for (let i = 0; i < this.count; i++) {
      const row = this.rows[i]!;
      let left = g[i]!;
      for (let j = 0; j < i; j++) left -= row[j]! * out[j]!;
      out[i] = left / row[i]!;
      square += out[i]! * out[i]!;
    }
    return square;
  }

  /** L⁻ᵀx in place. */
  backSolve(x: Float64Array): void {
    for (let i = this.count - 1; i >= 0; i--) {
      const row = this.rows[i]!;
      x[i]! /= row[i]!;
      for (let j = 0; j < i; j++) x[j]! -= row[j]! * x[i]!;
    }
  }

  /** @param half L⁻¹g of its products with those that are held. @param leftover what of its own product those don't explain, > 0 */
  add(demand: number, half: ArrayLike<number>, leftover: number): void {
    const n = this.count;
    if (n >= this.capacity) this.capacity *= 2;
    const row = new Float64Array(this.capacity);
    for (let j = 0; j < n; j++) row[j] = half[j]!;
    row[n] = Math.sqrt(leftover);
    this.rows.push(row);
    this.which.push(demand);
  }

  remove(place: number): void {
    const { rows, which } = this;
    rows.splice(place, 1);
    which.splice(place, 1);
    for (let j = place; j < which.length; j++) {
      const pivot = rows[j]!;
      const size = Math.hypot(pivot[j]!, pivot[j + 1]!);
      const [c, s] = [pivot[j]! / size, pivot[j + 1]! / size];
      for (let i = j; i < which.length; i++) {
        const row = rows[i]!;
        const [a, b] = [row[j]!, row[j + 1]!];
        row[j] = c * a + s * b;
        row[j + 1] = c * b - s * a;
      }
    }
  }
}
