/**
 * How far points of the puppet travel from step to step, said as the taking camera sees it: millimetres, the hour on a
 * clock face, toward or away from the lens. Computed from the rounded turns that are ordered.
 */
import { cross, dot, readVec3, subtract, unit, writeVec3, type Vec3 } from '../numeric/vector3.ts';
import type { ChainPoint } from '../puppet/chainPoints.ts';
import type { CompleteArmature } from '../puppet/complete.ts';
import { emptyStance, forward, pointOn, skeletonOf } from '../puppet/kinematics.ts';
import { placeOn } from '../puppet/limb.ts';
import type { TakingView } from '../puppet/puppetSettings.ts';

/** Travel across the picture below this has no direction worth a word, mm. Our choice. */
export const LEAST_TRAVEL_MM = 0.05;

/**
 * N steps, C points. NaN where there is no pose.
 * - `pointMm[N·C·3]` places on the set: X forward, Y above the stage floor, Z to the left of the picture of a camera in front.
 * - `travelMm[N·C]` from the pose before (0 at the first).
 * - `hour[N·C]` of the travel across the picture, above 0 up to 12; NaN where it is too small to have one.
 * - `towardMm[N·C]` of the travel toward the lens, negative away from it.
 */
export interface Travel {
  readonly pointMm: Float64Array;
  readonly travelMm: Float64Array;
  readonly hour: Float64Array;
  readonly towardMm: Float64Array;
}

/** Unit vectors of a view, in the axes of the set: to the right of the picture, up in it, toward the lens. */
export interface ViewAxes {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toward: Vec3;
}

export function viewAxes({ azimuthDeg, elevationDeg }: TakingView): ViewAxes {
  const [a, e] = [(azimuthDeg * Math.PI) / 180, (elevationDeg * Math.PI) / 180];
  const toward: Vec3 = [Math.cos(e) * Math.cos(a), Math.sin(e), Math.cos(e) * Math.sin(a)];
  // level, also where the camera looks straight down
  const right: Vec3 = unit(cross([0, 1, 0], [Math.cos(a), 0, Math.sin(a)])) ?? [0, 0, -1];
  return { right, up: cross(toward, right), toward };
}

/** The hour of a direction across the picture: 12 up, 3 right; NaN below LEAST_TRAVEL_MM. */
export function hourOf(rightMm: number, upMm: number): number {
  if (!(Math.hypot(rightMm, upMm) >= LEAST_TRAVEL_MM)) return Number.NaN;
  const hour = (Math.atan2(rightMm, upMm) * 6) / Math.PI;
  return hour <= 0 ? hour + 12 : hour;
}

/** Places of the points with the turns as ordered `[N·C·3]`. */
export function placePoints(
  armature: CompleteArmature, points: readonly ChainPoint[], rotations: Float64Array, rootMm: Float64Array,
): Float64Array {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  const count = rootMm.length / 3;
  const local = points.map(({ bone, at }) => placeOn(armature, bone, at));
  const out = new Float64Array(count * points.length * 3).fill(Number.NaN);
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(rootMm[s * 3]!)) continue;
    forward(skeleton, rotations, s, readVec3(rootMm, s), stance);
    for (let c = 0; c < points.length; c++) writeVec3(out, s * points.length + c, pointOn(stance, points[c]!.bone, local[c]!));
  }
  return out;
}

/** Travel of placed points; a step after a gap travels from the last pose before it. */
export function travelOf(pointMm: Float64Array, points: number, view: TakingView): Travel {
  const count = points === 0 ? 0 : pointMm.length / (points * 3);
  const travelMm = new Float64Array(count * points).fill(Number.NaN);
  const hour = new Float64Array(count * points).fill(Number.NaN);
  const towardMm = new Float64Array(count * points).fill(Number.NaN);
  const { right, up, toward } = viewAxes(view);
  for (let c = 0; c < points; c++) {
    let before: Vec3 | null = null;
    for (let s = 0; s < count; s++) {
      const at = s * points + c;
      const now = readVec3(pointMm, at);
      if (Number.isNaN(now[0])) continue;
      const moved = subtract(now, before ?? now);
      travelMm[at] = Math.sqrt(dot(moved, moved));
      hour[at] = hourOf(dot(moved, right), dot(moved, up));
      towardMm[at] = dot(moved, toward) + 0;
      before = now;
    }
  }
  return { pointMm, travelMm, hour, towardMm };
}
