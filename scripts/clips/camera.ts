// Where the camera stands and what it sees: a pinhole with square pixels and the axis through the middle.
import { add, cross, deg, dot, rad, scale, sub, unit, type Vec3 } from './motion/rotation.ts';

/** A camera as one would place it on a set. */
export interface Shot {
  /** 0 in front of the performer, + towards the performer's right, degrees. */
  readonly azimuthDeg: number;
  readonly heightM: number;
  readonly distanceM: number;
  readonly fovVerticalDeg: number;
  /** What it is aimed at, world metres. */
  readonly target: Vec3;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Turn about the lens's axis, clockwise as seen from behind the camera, degrees; absent: level. */
  readonly rollDeg?: number;
}

/** World position: `distanceM` away from the target over the floor. */
export function cameraPosition(shot: Shot): Vec3 {
  const a = rad(shot.azimuthDeg);
  return [
    shot.target[0] + shot.distanceM * Math.cos(a), shot.heightM, shot.target[2] + shot.distanceM * Math.sin(a),
  ];
}

/** Downward tilt, degrees. */
export const cameraPitchDeg = (shot: Shot): number =>
  deg(Math.atan2(shot.heightM - shot.target[1], shot.distanceM));

/** Focal length in pixels. */
export const focalPx = (shot: Shot): number => shot.heightPx / 2 / Math.tan(rad(shot.fovVerticalDeg) / 2);

/** Pixel (x right, y down, from the top left corner) and depth (m, away from the camera) of a world point. */
export function project(shot: Shot, point: Vec3): readonly [x: number, y: number, depth: number] {
  const eye = cameraPosition(shot);
  const forward = unit(sub(shot.target, eye));
  const level = unit(cross(forward, [0, 1, 0]));
  const plumb = cross(forward, level);
  const roll = rad(shot.rollDeg ?? 0);
  const right = add(scale(level, Math.cos(roll)), scale(plumb, Math.sin(roll)));
  const down = cross(forward, right);
  const v = sub(point, eye);
  const depth = dot(v, forward);
  const f = focalPx(shot);
  return [shot.widthPx / 2 + (f * dot(v, right)) / depth, shot.heightPx / 2 + (f * dot(v, down)) / depth, depth];
}
