/**
 * Turns and shifts that are put on top of what the performance gives, step by step: a pause kept alive, a correction of the
 * balance. They are added before limits, floor and pins are looked at, so that feet that stand stay where they are.
 */

/**
 * N moments, P joints of the puppet.
 * - `turnDeg[N·P·3]` rotation vector in the parent bone's axes, after the performer's turn, degrees; of a joint of one axis
 *   the first number alone, about its axis.
 * - `rootMm[N·3]` of the root bone on the set.
 */
export interface Added {
  readonly turnDeg: Float64Array;
  readonly rootMm: Float64Array;
}

/** Nothing added. */
export function emptyAdded(moments: number, joints: number): Added {
  return { turnDeg: new Float64Array(moments * joints * 3), rootMm: new Float64Array(moments * 3) };
}

/** All of them together; `null` for none. */
export function sumOfAdded(some: readonly (Added | null)[]): Added | null {
  const given = some.filter((one) => one !== null);
  if (given.length < 2) return given[0] ?? null;
  const [first, ...rest] = given;
  const sum: Added = { turnDeg: first!.turnDeg.slice(), rootMm: first!.rootMm.slice() };
  for (const { turnDeg, rootMm } of rest) {
    for (let i = 0; i < turnDeg.length; i++) sum.turnDeg[i]! += turnDeg[i]!;
    for (let i = 0; i < rootMm.length; i++) sum.rootMm[i]! += rootMm[i]!;
  }
  return sum;
}
