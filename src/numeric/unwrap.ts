/**
 * Angles without jumps of a full turn, so that a joint that goes through 180° goes on and its steps add up.
 */

/** The angle equal to `angle` up to whole turns that lies nearest to `near`; any unit, as told by `turn`. */
export function nearestTurn(angle: number, near: number, turn = 2 * Math.PI): number {
  return angle - turn * Math.round((angle - near) / turn);
}

/**
 * Each angle moved by whole turns to lie nearest to the known one before it. NaN stays NaN and is passed over.
 *
 * @param angles n angles
 * @param turn a full turn in the unit of the angles (2π unless told)
 * @returns n angles
 */
export function unwrap(angles: ArrayLike<number>, turn = 2 * Math.PI): Float64Array {
  const out = Float64Array.from(angles);
  let last = Number.NaN;
  for (let k = 0; k < out.length; k++) {
    const angle = out[k]!;
    if (Number.isNaN(angle)) continue;
    last = Number.isNaN(last) ? angle : nearestTurn(angle, last, turn);
    out[k] = last;
  }
  return out;
}
