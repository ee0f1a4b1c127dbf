/**
 * How surely the centre of mass is known over the floor, against what it stands on.
 *
 * Errors of the joints can't be carried through the body one by one as if they were independent: the picture holds the figure, so
 * a hip that is read too far forward comes with a knee that is read too far back. Carried through so they make five times too
 * large a sigma (`npm run balance`; docs/balance.md). What is taken instead was measured on clips whose truth is known: along the
 * line to the performer's camera, which is X on the set, and by less across it, which is Z. To it comes each joint that is
 * marked unsure, since those can be off by themselves: by its own error, times what the centre of mass moves when it turns.
 */
import type { CompleteArmature } from '../puppet/complete.ts';
import { emptyStance, forward, skeletonOf, type Skeleton, type Stance } from '../puppet/kinematics.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import { placeOnBone } from './placeOnBone.ts';
import type { Weights } from './puppetMass.ts';
import type { Contacts, Toucher } from './touching.ts';

/** One sigma of the centre of mass against what it stands on, metres in a body of the performer's size: toward the camera, across. */
export const MASS_SIGMA_M = { depth: 0.04, across: 0.02 } as const;
/** One sigma of its speed, metres a second likewise. */
export const MASS_SPEED_SIGMA_M_S = { depth: 0.05, across: 0.03 } as const;

const RAD_PER_DEG = Math.PI / 180;

/**
 * `[N·2]` one sigma along X and Z, mm; NaN where there is no pose.
 *
 * @param mmPerM millimetres of the puppet for a metre of the performer
 */
export function massSigma(
  armature: CompleteArmature, weights: Weights, moved: MovedPuppet, touchers: readonly Toucher[], { touching, unseen }: Contacts, mmPerM: number,
): Float64Array {
  const skeleton = skeletonOf(armature);
  const { count: width, parent } = skeleton;
  const count = moved.rootMm.length / 3;
  const out = new Float64Array(count * 2).fill(Number.NaN);
  const stance = emptyStance(skeleton);
  const [baseX, baseZ] = [(MASS_SIGMA_M.depth * mmPerM) ** 2, (MASS_SIGMA_M.across * mmPerM) ** 2];
  const carried = new Float64Array(width * 4);
  const standing = new Int32Array(width);
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(moved.rootMm[s * 3]!)) continue;
    let varX = baseX;
    let varZ = baseZ;
    let posed = false;
    let feet = 0;
    for (let p = 1; p < width; p++) {
      const sigma = moved.unsure[s * width + p] === 0 ? 0 : moved.errorDeg[s * width + p]! * RAD_PER_DEG;
      if (!(sigma > 0)) continue;
      if (!posed) {
        posed = true;
        forward(skeleton, moved.rotations, s, [0, 0, 0], stance);
        addUp(skeleton, stance, weights, carried);
        standing.fill(0);
        touchers.forEach(({ bone }, k) => {
          const at = s * touchers.length + k;
          if (touching[at] !== 1 || unseen[at] === 1) return;
          feet += 1;
          for (let q = bone; q > 0; q = parent[q]!) standing[q]! += 1;
        });
      }
      // a joint moves what hangs on it; one between the body and what stands moves all the rest, shared among what stands
      const rest = standing[p]! > 0;
      const mass = rest ? carried[0]! - carried[p * 4]! : carried[p * 4]!;
      if (!(mass > 0)) continue;
      const by = (sigma * mass) / carried[0]! / (rest ? feet : 1);
      const lever = (c: number): number => (rest ? carried[1 + c]! - carried[p * 4 + 1 + c]! : carried[p * 4 + 1 + c]!) / mass - stance.startMm[p * 3 + c]!;
      const [x, y, z] = [lever(0), lever(1), lever(2)];
      varX += by * by * (y * y + z * z);
      varZ += by * by * (y * y + x * x);
    }
    out[s * 2] = Math.sqrt(varX);
    out[s * 2 + 1] = Math.sqrt(varZ);
  }
  return out;
}

/** `[P·4]` mass that each joint carries, and that times its centre; props left out. */
function addUp({ count, parent }: Skeleton, stance: Stance, weights: Weights, into: Float64Array): void {
  const place = new Float64Array(3);
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
