/**
 * Which way is up in the first camera's frame, from its pitch and roll.
 *
 * Pitch is positive when the lens points below the horizon; roll is positive when the camera is turned clockwise seen from
 * behind it, so that upright things lean to the left in its picture.
 */

export interface Gravity {
  /** Up, and away from the camera along the floor; unit vectors in the camera's frame. */
  readonly up: readonly [number, number, number];
  readonly away: readonly [number, number, number];
  /** Their derivatives by pitch and by roll. */
  readonly upByPitch: readonly [number, number, number];
  readonly upByRoll: readonly [number, number, number];
  readonly awayByPitch: readonly [number, number, number];
  readonly awayByRoll: readonly [number, number, number];
}

/** Up and away for a camera with the given pitch and roll, radians. */
export function gravityOf(pitchRad: number, rollRad: number): Gravity {
  const cp = Math.cos(pitchRad);
  const sp = Math.sin(pitchRad);
  const cr = Math.cos(rollRad);
  const sr = Math.sin(rollRad);
  return {
    up: [-sr * cp, -cr * cp, -sp],
    away: [-sr * sp, -cr * sp, cp],
    upByPitch: [sr * sp, cr * sp, -cp],
    upByRoll: [-cr * cp, sr * cp, 0],
    awayByPitch: [-sr * cp, -cr * cp, -sp],
    awayByRoll: [-cr * sp, sr * sp, 0],
  };
}

/** Across: to the right of the picture along the floor; away × up turned so that (across, -up, away) is right-handed as the camera is. */
export function acrossOf(gravity: Gravity): readonly [number, number, number] {
  const { up: u, away: w } = gravity;
  // Camera x = y × z with y = -up, z = away.
  return [-(u[1] * w[2] - u[2] * w[1]), -(u[2] * w[0] - u[0] * w[2]), -(u[0] * w[1] - u[1] * w[0])];
}
