/** Cheapest path through a few states over time: exact, by dynamic programming. */

/**
 * @param here [T·S] cost of each state at each time
 * @param between cost of going from state `a` at t-1 to state `b` at t
 * @returns [T] the states of the cheapest path; ties go to the lower state
 */
export function cheapestPath(here: Float64Array, states: number, between: (t: number, a: number, b: number) => number): Uint8Array {
  const count = here.length / states;
  const path = new Uint8Array(count);
  if (count === 0) return path;
  let best = here.slice(0, states);
  const from = new Uint8Array(here.length);
  for (let t = 1; t < count; t++) {
    const next = new Float64Array(states);
    for (let b = 0; b < states; b++) {
      let least = Number.POSITIVE_INFINITY;
      for (let a = 0; a < states; a++) {
        const cost = best[a]! + between(t, a, b);
        if (cost < least) {
          least = cost;
          from[t * states + b] = a;
        }
      }
      next[b] = least + here[t * states + b]!;
    }
    best = next;
  }
  let state = 0;
  for (let s = 1; s < states; s++) if (best[s]! < best[state]!) state = s;
  for (let t = count - 1; t >= 0; t--) {
    path[t] = state;
    state = from[t * states + state]!;
  }
  return path;
}
