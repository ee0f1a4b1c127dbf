/**
 * How surely the centre of mass is known over the floor, against what it stands on.
 *
 * Two errors come together. *The pose:* it was measured, and may not be the performer's. Errors of the joints can't be carried through the
 * body one by one as if they were independent: the picture holds the figure, so a hip that is read too far forward comes with
 * a knee that is read too far back. Carried through so they make five times too large a sigma (`npm run balance`;
 * docs/balance.md). What is taken instead was measured on clips whose truth is known: along the line to the performer's camera, which is
 * X on the set, and by less across it, which is Z; and beside it each joint that is marked unsure, by its own error (not where it is
 * unsure for its turn about a straight limb alone, which moves no weight).
 * *The hand:* it sets each joint to half its smallest move, and those errors are independent of each other. Both of the last are
 * multiplied by what the centre of mass moves when the joint turns. Where a correction is applied, the pose is one's own decision and
 * the hand's error alone is left.
 */
import { UNSURE_TURN } from '../motion/trust/unsure.ts';
import type { CompleteArmature } from '../puppet/complete.ts';
import { emptyStance, forward, skeletonOf, type Skeleton, type Stance } from '../puppet/kinematics.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import { placeOnBone } from './placeOnBone.ts';
import type { Weights } from './puppetMass.ts';
import type { Contacts, Toucher } from './touching.ts';

/** One sigma of the centre of mass against what it stands on, metres in a body of the performer's size: toward the camera, across. */
export const MASS_SIGMA_M = { depth: 0.04, across: 0.02 } as const;
/** One sigma of its speed, metres a second likewise. */
export const MASS_SPEED_SIGMA_M_S = { depth: 0.1, across: 0.045 } as const;
/** One sigma of a joint set by hand, in smallest moves that a hand can repeat. Our choice. */
const HAND_MOVES = 0.5;

const RAD_PER_DEG = Math.PI / 180;

export interface SigmaSources {
  readonly armature: CompleteArmature;
  readonly weights: Weights;
  readonly moved: MovedPuppet;
  readonly touchers: readonly Toucher[];
  readonly contacts: Contacts;
  /** Millimetres of the puppet for a metre of the performer. */
  readonly mmPerM: number;
  /** `[N]` 1 where an applied correction sets the pose. */
  readonly corrected: Uint8Array;
}

/** `[N·2]` one sigma along X and Z, mm; NaN where there is no pose. */
export function massSigma({ armature, weights, moved, touchers, contacts: { touching, unseen }, mmPerM, corrected }: SigmaSources): Float64Array {
  const skeleton = skeletonOf(armature);
  const { count: width, parent } = skeleton;
  const count = moved.rootMm.length / 3;
  const out = new Float64Array(count * 2).fill(Number.NaN);
  const stance = emptyStance(skeleton);
  const carried = new Float64Array(width * 4);
  const standing = new Int32Array(width);
  const hand = Float64Array.from(armature.joints, ({ smallestDeg }) => (HAND_MOVES * smallestDeg * RAD_PER_DEG) ** 2);
  const lever = new Float64Array(3);
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(moved.rootMm[s * 3]!)) continue;
    const byPose = corrected[s] === 0;
    let varX = byPose ? (MASS_SIGMA_M.depth * mmPerM) ** 2 : 0;
    let varZ = byPose ? (MASS_SIGMA_M.across * mmPerM) ** 2 : 0;
    forward(skeleton, moved.rotations, s, [0, 0, 0], stance);
    addUp(skeleton, stance, weights, carried);
    standing.fill(0);
    let feet = 0;
    for (let k = 0; k < touchers.length; k++) {
      const at = s * touchers.length + k;
      if (touching[at] !== 1 || unseen[at] === 1) continue;
      feet += 1;
      for (let q = touchers[k]!.bone; q > 0; q = parent[q]!) standing[q]! += 1;
    }
    for (let p = 1; p < width; p++) {
      // a joint moves what hangs on it; one between the body and what stands moves all the rest, shared among what stands
      const rest = standing[p]! > 0;
      const mass = rest ? carried[0]! - carried[p * 4]! : carried[p * 4]!;
      if (!(mass > 0)) continue;
      const off = byPose && (moved.unsure[s * width + p]! & ~UNSURE_TURN) !== 0 ? moved.errorDeg[s * width + p]! * RAD_PER_DEG : 0;
      const share = mass / carried[0]! / (rest ? feet : 1);
      const by = (hand[p]! + (off > 0 ? off * off : 0)) * share * share;
      for (let c = 0; c < 3; c++) {
        lever[c] = (rest ? carried[1 + c]! - carried[p * 4 + 1 + c]! : carried[p * 4 + 1 + c]!) / mass - stance.startMm[p * 3 + c]!;
      }
      const up = lever[1]! * lever[1]!;
      varX += by * (up + lever[2]! * lever[2]!);
      varZ += by * (up + lever[0]! * lever[0]!);
    }
    out[s * 2] = Math.sqrt(varX);
    out[s * 2 + 1] = Math.sqrt(varZ);
  }
  return out;
}

/** `[P·4]` mass that each joint carries, and that times its centre; props left out. */
function addUp({ count, parent }: Skeleton, stance: Stance, weights: Weights, into: Float64Array): void {
  into.fill(0);
  for (let b = 0; b < weights.bone.length; b++) {
    if (weights.fromS[b] !== -Infinity) continue;
    const p = weights.bone[b]!;
    const m = weights.massG[b]!;
    placeOnBone(stance, p, weights.atMm[b * 3]!, weights.atMm[b * 3 + 1]!, weights.atMm[b * 3 + 2]!, place);
    into[p * 4]! += m;
    for (let c = 0; c < 3; c++) into[p * 4 + 1 + c]! += m * place[c]!;
  }
  for (let p = count - 1; p > 0; p--) for (let c = 0; c < 4; c++) into[parent[p]! * 4 + c]! += into[p * 4 + c]!;
}

const place = new Float64Array(3);
