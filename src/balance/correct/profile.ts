/**
 * How a change goes along the steps: a uniform cubic B-spline (de Boor), which comes from nothing and goes to nothing without a
 * corner. Its slope is never steeper than that between two neighbouring control values.
 */

/** Steps from one control value to the next: a change of direction takes about twice as many. Our choice. */
export const KNOT_STEPS = 3;

export interface Profile {
  /** First and last step at which the change may be more than nothing. */
  readonly from: number;
  readonly to: number;
  /** Number of control values. */
  readonly count: number;
  /** Which control values make up a step's value, and by how much. */
  readonly at: (step: number) => { readonly index: readonly number[]; readonly share: readonly number[] };
}

/**
 * @param from,to steps of the span
 * @param ease steps before and behind it over which the change comes and goes
 * @param last last step of the plan: where the span lies at an end of the plan the change is there whole
 */
export function profileOver(from: number, to: number, ease: number, last: number): Profile {
  const start = from - ease <= 0 ? -3 * KNOT_STEPS : from - ease;
  const end = to + ease >= last ? last + 3 * KNOT_STEPS : to + ease;
  // control value k stands at start + (k + 2)·KNOT_STEPS; it reaches two intervals to both sides
  const count = Math.max(1, Math.floor((end - start) / KNOT_STEPS) - 3);
  return {
    from: Math.max(0, start), to: Math.min(last, end), count,
    at: (step) => {
      const u = (step - start) / KNOT_STEPS - 2;
      const index: number[] = [];
      const share: number[] = [];
      for (let k = Math.ceil(u - 2); k <= Math.floor(u + 2); k++) {
        const by = cubic(u - k);
        if (k < 0 || k >= count || by === 0) continue;
        index.push(k);
        share.push(by);
      }
      return { index, share };
    },
  };
}

/** The basis function of the uniform cubic B-spline, centred. */
function cubic(x: number): number {
  const d = Math.abs(x);
  if (d >= 2) return 0;
  return d >= 1 ? (2 - d) ** 3 / 6 : 2 / 3 - d * d + (d * d * d) / 2;
}

/** A change at a step: one number for each amount. @param control `[count·amounts]`, control value k of amount i at k·amounts + i */
export function changeAt(profile: Profile, control: ArrayLike<number>, amounts: number, step: number): Float64Array {
  const out = new Float64Array(amounts);
  const { index, share } = profile.at(step);
  index.forEach((k, j) => {
    for (let i = 0; i < amounts; i++) out[i]! += share[j]! * control[k * amounts + i]!;
  });
  return out;
}
