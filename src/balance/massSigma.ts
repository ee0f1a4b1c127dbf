/**
 * How surely the centre of mass is known over the floor.
 *
 * A pose that stands is held by its foot, and legs are solved from foot and path: errors of the joints of a standing leg
 * don't add up along it as they would in a chain that hangs free. What is left was measured on clips whose truth is
 * known (`npm run balance`; docs/balance.md): the performer's centre of mass against the standing foot is off by so much
 * along the line to the performer's camera, and by far less across it. On the set that line is X, across it is Z. To this come the
 * joints that are unsure: each carries what hangs on it about itself, by its own error, independently of the others.
 */
import type { CompleteArmature } from '../puppet/complete.ts';
import type { Foot } from '../puppet/feet.ts';
import { emptyStance, forward, skeletonOf } from '../puppet/kinematics.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import type { Weights } from './puppetMass.ts';

/** One sigma of the performer's centre of mass against the standing foot, metres in a body of middle height: toward the camera, across. */
export const MASS_SIGMA_M = { depth: 0.04, across: 0.014 } as const;

const RAD_PER_DEG = Math.PI / 180;

/**
 * `[N·2]` one sigma along X and Z, mm; NaN where there is no pose.
 *
 * @param mmPerM millimetres of the puppet for a metre of the performer
 */
export function massSigma(armature: CompleteArmature, weights: Weights, moved: MovedPuppet, mmPerM: number): Float64Array {
  const skeleton = skeletonOf(armature);
  const { count: width, parent } = skeleton;
  const count = moved.rootMm.length / 3;
  const out = new Float64Array(count * 2).fill(Number.NaN);
  const inLeg = legBones(parent, moved.feet);
  const shares = carriedShares(weights, parent, width);
  const stance = emptyStance(skeleton);
  const [baseX, baseZ] = [(MASS_SIGMA_M.depth * mmPerM) ** 2, (MASS_SIGMA_M.across * mmPerM) ** 2];
  for (let s = 0; s < count; s++) {
    if (Number.isNaN(moved.rootMm[s * 3]!)) continue;
    let [varX, varZ] = [baseX, baseZ];
    let posed = false;
    for (let p = 1; p < width; p++) {
      const at = s * width + p;
      if (moved.unsure[at] === 0 || inLeg[p] === 1 || !(shares[p]! > 0)) continue;
      const sigma = moved.errorDeg[at]! * RAD_PER_DEG;
      if (!(sigma > 0)) continue;
      if (!posed) forward(skeleton, moved.rotations, s, [0, 0, 0], stance);
      posed = true;
      // the lever is taken to what hangs on the joint as it hangs now: its bone's far half is near enough
      const lever = leverOf(skeleton, stance, p);
      const by = sigma * shares[p]!;
      varX += by * by * (lever[1] * lever[1] + lever[2] * lever[2]);
      varZ += by * by * (lever[1] * lever[1] + lever[0] * lever[0]);
    }
    out[s * 2] = Math.sqrt(varX);
    out[s * 2 + 1] = Math.sqrt(varZ);
  }
  return out;
}

/** Bones from each foot up to the root, the root left out. */
function legBones(parent: Int32Array, feet: readonly Foot[]): Uint8Array {
  const out = new Uint8Array(parent.length);
  for (const { bone } of feet) for (let p = bone; p > 0; p = parent[p]!) out[p] = 1;
  return out;
}

/** Share of the puppet's own mass that each joint carries, its bone and all that hangs on it. */
function carriedShares(weights: Weights, parent: Int32Array, width: number): Float64Array {
  const mass = new Float64Array(width);
  let whole = 0;
  weights.bone.forEach((p, b) => {
    mass[p]! += weights.massG[b]!;
    whole += weights.massG[b]!;
  });
  for (let p = width - 1; p > 0; p--) mass[parent[p]!]! += mass[p]!;
  return mass.map((m) => m / whole);
}

function leverOf({ count, parent, endMm }: ReturnType<typeof skeletonOf>, { startMm, orientation }: ReturnType<typeof emptyStance>, joint: number): readonly [number, number, number] {
  // to the far end of the last bone in line, halved
  let last = joint;
  for (let p = joint + 1; p < count; p++) if (parent[p] === last) last = p;
  const [w, x, y, z] = [orientation[last * 4]!, orientation[last * 4 + 1]!, orientation[last * 4 + 2]!, orientation[last * 4 + 3]!];
  const [px, py, pz] = [endMm[last * 3]!, endMm[last * 3 + 1]!, endMm[last * 3 + 2]!];
  const [tx, ty, tz] = [2 * (y * pz - z * py), 2 * (z * px - x * pz), 2 * (x * py - y * px)];
  return [
    (startMm[last * 3]! + px + w * tx + y * tz - z * ty - startMm[joint * 3]!) / 2,
    (startMm[last * 3 + 1]! + py + w * ty + z * tx - x * tz - startMm[joint * 3 + 1]!) / 2,
    (startMm[last * 3 + 2]! + pz + w * tz + x * ty - y * tx - startMm[joint * 3 + 2]!) / 2,
  ];
}
