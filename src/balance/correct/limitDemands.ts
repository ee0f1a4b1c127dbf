/**
 * Joints within their limits, as demands. Cutting a turn off at its limit would take the margin that was counted on, and where it is
 * cut at one step and not at the next, a jump comes of it; so no change asks for more than a joint can do.
 */
import { fromRotationVector, multiply, readQuat, rotationVector, type Quat } from '../../numeric/quaternion.ts';
import type { Vec3 } from '../../numeric/vector3.ts';
import { RAD_PER_DEG } from '../../puppet/turns.ts';
import type { Demand } from './leastChange.ts';
import type { Problem } from './problem.ts';
import { changeAt, type Profile } from './profile.ts';

/** A limit that a change was seen to go over: the rotation vector's part about an axis, to one side. */
interface LimitWatch {
  readonly step: number;
  readonly joint: number;
  readonly axis: 0 | 1 | 2;
  readonly side: 1 | -1;
}

/** Turn by which slopes are read off, degrees. */
const PROBE_DEG = 0.02;
/** Over a limit by less than this is within it, degrees. */
const TOUCH_DEG = 1e-3;
const AXES = [0, 1, 2] as const;

/** Watches the limits of the joints that a change turns; once gone over, a limit stays a demand. */
export class LimitWatcher {
  private readonly problem: Problem;
  private readonly profile: Profile;
  private readonly turned: readonly number[];
  private readonly watches = new Map<string, LimitWatch>();

  constructor(problem: Problem, profile: Profile) {
    this.problem = problem;
    this.profile = profile;
    const { joints } = problem.armature;
    this.turned = [...new Set(problem.amounts.flatMap((amount) => amount.joints))].filter((p) => {
      const { forward, up, right } = joints[p]!.limitsDeg;
      return forward !== null || up !== null || right !== null;
    });
  }

  /** Looks at all steps of the profile; true where a limit was gone over that was not a demand yet. */
  look(control: Float64Array): boolean {
    const { problem: { amounts }, profile, turned, watches } = this;
    const before = watches.size;
    for (let step = profile.from; step <= profile.to; step++) {
      const change = changeAt(profile, control, amounts.length, step);
      for (const joint of turned) {
        const v = this.vectorDeg(step, joint, change);
        for (const axis of AXES) {
          const range = this.range(step, joint, axis);
          if (range === null) continue;
          if (v[axis] > range[1] + TOUCH_DEG) watches.set(`${step} ${joint} ${axis} 1`, { step, joint, axis, side: 1 });
          if (v[axis] < range[0] - TOUCH_DEG) watches.set(`${step} ${joint} ${axis} -1`, { step, joint, axis, side: -1 });
        }
      }
    }
    return watches.size > before;
  }

  demands(control: Float64Array): readonly Demand[] {
    const { problem: { amounts }, profile } = this;
    const k = amounts.length;
    return [...this.watches.values()].flatMap(({ step, joint, axis, side }): readonly Demand[] => {
      const change = changeAt(profile, control, k, step);
      const now = this.vectorDeg(step, joint, change)[axis];
      const range = this.range(step, joint, axis)!;
      const { index, share } = profile.at(step);
      const at: number[] = [];
      const a: number[] = [];
      let c = side * now - side * range[side === 1 ? 1 : 0];
      amounts.forEach(({ joints }, i) => {
        if (!joints.includes(joint)) return;
        const slope = (this.vectorDeg(step, joint, change.map((v, j) => (j === i ? v + PROBE_DEG : v)))[axis] - now) / PROBE_DEG;
        index.forEach((knot, j) => {
          at.push(knot * k + i);
          a.push(-side * slope * share[j]!);
        });
        c -= side * slope * change[i]!;
      });
      return at.length === 0 ? [] : [{ at, a, c }];
    });
  }

  /** The limits, or where the performance itself stands beyond them. */
  private range(step: number, joint: number, axis: 0 | 1 | 2): readonly [number, number] | null {
    const { forward, up, right } = this.problem.armature.joints[joint]!.limitsDeg;
    const range = [forward, up, right][axis]!;
    if (range === null) return null;
    const still = rotationVector(this.pose(step, joint))[axis] / RAD_PER_DEG;
    return [Math.min(range[0], still), Math.max(range[1], still)];
  }

  private pose(step: number, joint: number): Quat {
    const { moved, armature } = this.problem;
    return readQuat(moved.rotations, step * armature.joints.length + joint);
  }

  /** Rotation vector of a joint with a change, not cut off, degrees. */
  private vectorDeg(step: number, joint: number, change: Float64Array): Vec3 {
    const turn: [number, number, number] = [0, 0, 0];
    this.problem.amounts.forEach(({ joints, axis }, i) => {
      if (joints.includes(joint)) turn[axis] += (change[i]! / joints.length) * RAD_PER_DEG;
    });
    const v = rotationVector(multiply(fromRotationVector(turn), this.pose(step, joint)));
    return [v[0] / RAD_PER_DEG, v[1] / RAD_PER_DEG, v[2] / RAD_PER_DEG];
  }
}
