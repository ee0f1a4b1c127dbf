/**
 * How far a limb reaches when its hinges bend: the distance from the joint that aims it to a point behind its last bend,
 * and the bending that gives a wanted distance.
 *
 * With one hinge between two bones the distance is closed: |a + R(θ)b|² = A + B cos θ + C sin θ (the law of cosines, for any
 * axis). With more hinges all of them are bent further or less by the same angle t beside the performer's, each in its own
 * sense and within its own limits, until the distance fits: the rhythm of the performance stays in all of them.
 */
import { fromAxisAngle, rotate, type Quat } from '../numeric/quaternion.ts';
import { add, cross, dot, length, scale, type Vec3 } from '../numeric/vector3.ts';
import { turnsFreely } from './armature.ts';
import type { CompleteJoint } from './complete.ts';
import { RAD_PER_DEG } from './turns.ts';

/** A hinge that moves the point by less than this part of the distance for each radian does not bend the limb (a swivel along it). */
const IDLE = 0.02;
/** Without a limit a hinge is taken to bend up to here to either side. Our choice. */
const FARTHEST_RAD = 170 * RAD_PER_DEG;
const CLOSE_MM = 1e-9;

export interface Bent {
  /** Angle of each hinge, radians about its axis. */
  readonly anglesRad: readonly number[];
  /** By how much the point lies nearer (+) or farther (-) than asked, mm; 0 where it fits. */
  readonly shortMm: number;
}

export class LimbBend {
  private readonly least: readonly number[];
  private readonly most: readonly number[];
  private readonly joints: readonly CompleteJoint[];
  private readonly places: readonly Vec3[];
  private readonly senses: readonly number[];

  /**
   * @param joints bending joints outward; joints of any turn among them stay as they are
   * @param places of each joint in the bone that carries it, mm
   * @param pointMm the wanted point at rest, in the last hinge's bone
   */
  constructor(joints: readonly CompleteJoint[], places: readonly Vec3[], pointMm: Vec3) {
    this.joints = joints;
    this.places = places;
    this.least = joints.map(({ limitsDeg }) => (limitsDeg.axis === null ? -FARTHEST_RAD : limitsDeg.axis[0] * RAD_PER_DEG));
    this.most = joints.map(({ limitsDeg }) => (limitsDeg.axis === null ? FARTHEST_RAD : limitsDeg.axis[1] * RAD_PER_DEG));
    this.senses = this.sensesAtRest(pointMm);
  }

  /**
   * From the aiming joint to the point, in the axes of the bone that it turns.
   *
   * @param angles of the hinges, radians; @param fixed turns of free joints among them
   * @param pointMm in the axes of the last hinge's bone, from its start
   */
  reach(angles: readonly number[], fixed: readonly Quat[], pointMm: Vec3): Vec3 {
    let v = pointMm;
    for (let i = this.joints.length - 1; i >= 0; i--) v = add(this.places[i]!, rotate(this.turn(i, angles[i]!, fixed[i]!), v));
    return v;
  }

  private turn(i: number, angle: number, fixed: Quat): Quat {
    const joint = this.joints[i]!;
    return turnsFreely(joint.kind) ? fixed : fromAxisAngle(joint.axis, angle);
  }

  /** The bending nearest to `angles` that puts the point at the distance. */
  solve(angles: readonly number[], fixed: readonly Quat[], pointMm: Vec3, distanceMm: number): Bent {
    const { senses } = this;
    if (senses.every((sense) => sense === 0)) return { anglesRad: angles, shortMm: distanceMm - length(this.reach(angles, fixed, pointMm)) };
    if (this.joints.length === 1) return this.closed(senses[0]!, pointMm, distanceMm);
    return this.search(angles, senses, fixed, pointMm, distanceMm);
  }

  private clamp(i: number, angle: number): number {
    return Math.min(this.most[i]!, Math.max(this.least[i]!, angle));
  }

  /** +1 or -1: which way each hinge folds the limb; 0 where it doesn't (a swivel along it). */
  private sensesAtRest(pointMm: Vec3): readonly number[] {
    const all = this.places.reduce(add, pointMm);
    const size = length(all) || 1;
    let start: Vec3 = [0, 0, 0];
    return this.joints.map((joint, i) => {
      start = add(start, this.places[i]!);
      if (turnsFreely(joint.kind)) return 0;
      const moved = cross(joint.axis, add(all, scale(start, -1)));
      if (length(moved) < IDLE * size) return 0;
      // folds where a positive turn brings the point nearer; at full stretch the wider side of the limits tells
      const slope = dot(moved, all) / (size * length(moved));
      if (Math.abs(slope) > 0.05) return slope < 0 ? 1 : -1;
      return this.most[i]! + this.least[i]! >= 0 ? 1 : -1;
    });
  }

  /** One hinge: the law of cosines. */
  private closed(sense: number, b: Vec3, distanceMm: number): Bent {
    const a = this.places[0]!;
    const { axis } = this.joints[0]!;
    const along = dot(axis, b);
    const level = add(b, scale(axis, -along));
    const base = dot(a, a) + dot(b, b) + 2 * along * dot(a, axis);
    const cosine = 2 * dot(a, level);
    const sine = 2 * dot(a, cross(axis, b));
    const swing = Math.hypot(cosine, sine);
    const straight = Math.atan2(sine, cosine);
    const ratio = (distanceMm * distanceMm - base) / swing;
    const folded = Math.acos(Math.min(1, Math.max(-1, ratio)));
    let wanted = straight + sense * folded;
    for (const turn of [2 * Math.PI, -2 * Math.PI]) {
      if (this.clamp(0, wanted) !== wanted && this.clamp(0, wanted + turn) === wanted + turn) wanted += turn;
    }
    const angle = this.clamp(0, wanted);
    const reached = Math.sqrt(Math.max(0, base + cosine * Math.cos(angle) + sine * Math.sin(angle)));
    return { anglesRad: [angle], shortMm: angle === wanted && Math.abs(ratio) <= 1 ? 0 : distanceMm - reached };
  }

  /** More hinges: all together by the same angle, by bracketing and bisection with secant steps (regula falsi, Illinois). */
  private search(
    angles: readonly number[], senses: readonly number[], fixed: readonly Quat[], pointMm: Vec3, distanceMm: number,
  ): Bent {
    const at = (t: number): readonly number[] => angles.map((angle, i) => this.clamp(i, angle + senses[i]! * t));
    const over = (t: number): number => length(this.reach(at(t), fixed, pointMm)) - distanceMm;
    let low = 0;
    let overLow = over(0);
    let best = 0;
    let overBest = overLow;
    // too far: fold (t up); too near: stretch (t down)
    const direction = overLow > 0 ? 1 : -1;
    let high = 0;
    let overHigh = overLow;
    for (let step = 0.02; Math.abs(high) < FARTHEST_RAD && overHigh * overLow > 0; step = Math.min(0.15, step * 2)) {
      low = high;
      overLow = overHigh;
      high += direction * step;
      overHigh = over(high);
      if (Math.abs(overHigh) < Math.abs(overBest)) [best, overBest] = [high, overHigh];
    }
    if (overHigh * overLow > 0) return { anglesRad: at(best), shortMm: -overBest };
    let side = 0;
    for (let round = 0; round < 60; round++) {
      const middle = overHigh === overLow ? (low + high) / 2 : (low * overHigh - high * overLow) / (overHigh - overLow);
      const value = over(middle);
      if (Math.abs(value) < CLOSE_MM) return { anglesRad: at(middle), shortMm: 0 };
      if (value * overHigh > 0) {
        [high, overHigh] = [middle, value];
        if (side === 1) overLow /= 2;
        side = 1;
      } else {
        [low, overLow] = [middle, value];
        if (side === -1) overHigh /= 2;
        side = -1;
      }
    }
    return { anglesRad: at((low + high) / 2), shortMm: -over((low + high) / 2) };
  }
}
