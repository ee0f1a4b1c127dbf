/** The armature as pictures see it: one stiff part for each bone, and where the parts are in a pose. */
import type { FigurePart, FigurePose, FigureShape } from '../../../charts/figure/figure.ts';
import type { Quat } from '../../../numeric/quaternion.ts';
import { scale, type Vec3 } from '../../../numeric/vector3.ts';
import type { CompleteArmature, CompleteBone } from '../../../puppet/complete.ts';
import { emptyStance, forward, skeletonOf } from '../../../puppet/kinematics.ts';
import type { ChainEnd } from '../../puppet3d/scene.ts';
import { sideOf } from './edits/mirror.ts';

/** Joints are drawn no thicker than this part of the puppet's height: a head is stout, its joint is not. */
const JOINT_PART = 0.022;

const known = new WeakMap<CompleteArmature, FigureShape>();

/** Parts in the order of the armature's bones. At rest a bone's axes are the puppet's, so a joint's axis is the same in either. */
export function figureOf(armature: CompleteArmature): FigureShape {
  let shape = known.get(armature);
  if (shape === undefined) {
    const carrying = new Set(armature.joints.map(({ parentIndex }) => parentIndex));
    shape = { name: armature.name, heightMm: armature.heightMm, parts: armature.bones.map((bone, p): FigurePart => {
      const { name, kind, axis } = armature.joints[p]!;
      return {
        name: bone.name,
        side: sideOf(bone.name) ?? 'middle',
        ...flesh(bone, carrying.has(p)),
        radiusMm: bone.radiusMm,
        joint: { name, kind, axis, radiusMm: Math.min(bone.radiusMm, armature.heightMm * JOINT_PART) },
        soleMm: (bone.sole?.outlineMm ?? []).map(([f, r]): Vec3 => [f, -(bone.sole?.dropMm ?? 0), r]),
      };
    }) };
    known.set(armature, shape);
  }
  return shape;
}

/** Where all parts are; new arrays at each call, since pictures keep several poses at a time. */
export function poseOf(armature: CompleteArmature, rotations: Float64Array, moment: number, rootMm: Vec3): FigurePose {
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  forward(skeleton, rotations, moment, rootMm, stance);
  return { originMm: stance.startMm, rotations: stance.orientation };
}

/**
 * Where the round body of a bone begins and ends. A limb runs from joint to joint; a stout part (a head, a chest) and a free end
 * are drawn in, so that the crown and the fingertips are where they were measured.
 */
function flesh({ along, lengthMm, radiusMm }: CompleteBone, carries: boolean): Pick<FigurePart, 'fromMm' | 'toMm'> {
  const stout = radiusMm > lengthMm / 4;
  const from = stout ? Math.min(radiusMm, lengthMm / 2) : 0;
  const to = stout || !carries ? Math.max(lengthMm - radiusMm, lengthMm / 2) : lengthMm;
  return { fromMm: scale(along, from), toMm: scale(along, to) };
}

const UNTURNED: Quat = [1, 0, 0, 0];

/** The puppet at rest, standing on the floor. */
export function restPose(armature: CompleteArmature): FigurePose {
  const rotations = Float64Array.from(armature.joints.flatMap(() => UNTURNED));
  return poseOf(armature, rotations, 0, [0, armature.rootHeightMm, 0]);
}

/** The far ends of bones that carry nothing. */
export function chainEnds(armature: CompleteArmature): ChainEnd[] {
  const carrying = new Set(armature.joints.map(({ parentIndex }) => parentIndex));
  return armature.bones.flatMap((bone, part) => (carrying.has(part) ? [] : [{ part, pointMm: scale(bone.along, bone.lengthMm) }]));
}
