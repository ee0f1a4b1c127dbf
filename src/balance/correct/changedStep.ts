/** What a change makes of one step: the pose with its standing feet where they were, and its centre of mass. */
import type { CompleteArmature } from '../../puppet/complete.ts';
import { withinLimits } from '../../puppet/keepLimits.ts';
import { emptyStance, forward, skeletonOf, startOf, type Skeleton, type Stance } from '../../puppet/kinematics.ts';
import type { MovedPuppet } from '../../puppet/movePuppet.ts';
import { LimbReacher } from '../../puppet/reachLimb.ts';
import { RAD_PER_DEG } from '../../puppet/turns.ts';
import { fromRotationVector, multiply, readQuat, writeQuat } from '../../numeric/quaternion.ts';
import type { Vec3 } from '../../numeric/vector3.ts';
import { placeOnBone } from '../placeOnBone.ts';
import type { Weights } from '../puppetMass.ts';
import type { Amount } from './means.ts';

/** Steps before landing and after leaving in which a foot still counts for how high the body goes. Our choice. */
const LANDING_STEPS = 4;

export interface ChangedStep {
  /** `[P·4]` */
  readonly rotations: Float64Array;
  readonly rootMm: Vec3;
  /** How far the body rises (sinks, below 0) with its shift, mm. */
  readonly liftMm: number;
  readonly massX: number;
  readonly massZ: number;
}

/** Tries changes on the steps of a plan, one at a time and apart from the plan. */
export class StepChanger {
  private readonly armature: CompleteArmature;
  private readonly moved: MovedPuppet;
  private readonly weights: Weights;
  private readonly timesS: Float64Array;
  private readonly reachers: readonly LimbReacher[];
  private readonly skeleton: Skeleton;
  private readonly stance: Stance;
  private readonly place = new Float64Array(3);

  constructor(armature: CompleteArmature, moved: MovedPuppet, weights: Weights, timesS: Float64Array) {
    this.armature = armature;
    this.moved = moved;
    this.weights = weights;
    this.timesS = timesS;
    this.skeleton = skeletonOf(armature);
    this.stance = emptyStance(this.skeleton);
    this.reachers = moved.feet.map(({ bone }) => new LimbReacher(armature, bone, [0, 0, 0]));
  }

  /** @param change one number for each amount */
  at(step: number, amounts: readonly Amount[], change: ArrayLike<number>): ChangedStep {
    const { armature, moved, reachers } = this;
    const width = armature.joints.length;
    const rotations = moved.rotations.slice(step * width * 4, (step + 1) * width * 4);
    const root: [number, number, number] = [moved.rootMm[step * 3]!, moved.rootMm[step * 3 + 1]!, moved.rootMm[step * 3 + 2]!];
    const turned = new Set<number>();
    const [x, z] = [root[0], root[2]];
    amounts.forEach(({ joints, axis }, i) => {
      const by = change[i]!;
      if (by === 0) return;
      if (joints.length === 0) {
        root[axis] += by;
        return;
      }
      for (const p of joints) {
        const turn: [number, number, number] = [0, 0, 0];
        turn[axis] = (by / joints.length) * RAD_PER_DEG;
        writeQuat(rotations, p, multiply(fromRotationVector(turn), readQuat(rotations, p)));
        turned.add(p);
      }
    });
    for (const p of turned) writeQuat(rotations, p, withinLimits(armature.joints[p]!, readQuat(rotations, p)));
    const liftMm = this.lift(step, root[0] - x, root[2] - z);
    root[1] += liftMm;
    for (const { foot, from, to, placeMm, turn } of moved.placed) {
      if (step >= from && step <= to) reachers[foot]!.reach(rotations, 0, root, placeMm, turn);
    }
    return { rotations, rootMm: root, liftMm, ...this.massOver(step, rotations, root) };
  }

  /** As `massOnSet`, of one pose and over the floor alone, without making arrays: a correction asks for it hundreds of times. */
  private massOver(step: number, rotations: Float64Array, root: Vec3): { readonly massX: number; readonly massZ: number } {
    const { weights: { bone, massG, atMm, fromS, toS }, stance, place } = this;
    forward(this.skeleton, rotations, 0, root, stance);
    const atS = this.timesS[step]!;
    let [whole, x, z] = [0, 0, 0];
    for (let b = 0; b < bone.length; b++) {
      if (atS < fromS[b]! || atS > toS[b]!) continue;
      placeOnBone(stance, bone[b]!, atMm[b * 3]!, atMm[b * 3 + 1]!, atMm[b * 3 + 2]!, place);
      whole += massG[b]!;
      x += massG[b]! * place[0]!;
      z += massG[b]! * place[2]!;
    }
    return { massX: x / whole, massZ: z / whole };
  }

  /**
   * The body goes over a standing foot along an arc: standing legs keep their length, so that a nearly straight knee, which a hair of
   * length turns by degrees, stays as it is. Of two feet the one that would be stretched tells.
   */
  private lift(step: number, byX: number, byZ: number): number {
    if (byX === 0 && byZ === 0) return 0;
    const { moved, skeleton, stance } = this;
    let least = Infinity;
    let posed = false;
    for (const { foot, from, to, placeMm } of moved.placed) {
      const { aim } = this.reachers[foot]!.limb;
      // a foot that is about to land, or has just left, already tells: the body must not drop from one step to the next
      if (step < from - LANDING_STEPS || step > to + LANDING_STEPS || aim < 0) continue;
      if (!posed) forward(skeleton, moved.rotations, step, [moved.rootMm[step * 3]!, moved.rootMm[step * 3 + 1]!, moved.rootMm[step * 3 + 2]!], stance);
      posed = true;
      const hip = startOf(stance, aim);
      const [dx, dy, dz] = [hip[0] - placeMm[0], hip[1] - placeMm[1], hip[2] - placeMm[2]];
      const upSquare = dx * dx + dy * dy + dz * dz - (dx + byX) ** 2 - (dz + byZ) ** 2;
      least = Math.min(least, Math.sqrt(Math.max(0, upSquare)) - dy);
    }
    return Number.isFinite(least) ? least : 0;
  }
}
