/** The plan's steps as a scene to be painted. */
import { boxOf, type FigurePose } from '../../../charts/figure/figure.ts';
import { certaintyAt } from '../../../charts/certainty.ts';
import { jointWords } from '../../../charts/figures.ts';
import type { Plan } from '../../../plan/plan.ts';
import type { CompleteArmature } from '../../../puppet/complete.ts';
import type { PuppetScene } from '../../puppet3d/scene.ts';
import { chainEnds, figureOf, poseOf, restPose } from './figureOf.ts';
import { moveWords } from './moveWords.ts';

/** Poses that are kept; the playhead goes to and fro among a few. */
const KEEP = 64;

/** Whether a plan was made for this armature: a new one is on its way otherwise. */
export function isPlanOf(plan: Plan, armature: CompleteArmature): boolean {
  return plan.joints.length === armature.joints.length && plan.joints.every((joint, p) => joint.name === armature.joints[p]!.name);
}

/** The puppet at each step, exactly as the sheet orders it. */
export function sceneOfPlan(plan: Plan, armature: CompleteArmature): PuppetScene {
  const kept = new Map<number, FigurePose>();
  const poseAt = (step: number): FigurePose | null => {
    if (step < 0 || step >= plan.stepCount) return null;
    let pose = kept.get(step);
    if (pose === undefined) {
      pose = poseOf(armature, plan.rotations, step, rootMm(plan, armature, step));
      if (kept.size >= KEEP) kept.clear();
      kept.set(step, pose);
    }
    return pose;
  };
  const every = Math.max(1, Math.floor(plan.stepCount / 200));
  const some = Array.from({ length: Math.ceil(plan.stepCount / every) }, (_, i) => poseAt(i * every)).filter((pose) => pose !== null);
  const shape = figureOf(armature);
  return {
    shape,
    box: boxOf(shape, some),
    stepCount: plan.stepCount,
    poseAt,
    isUnsure: (step, part) => certaintyAt(plan, step, part) === 'unsure',
    moveWords: (step, part) => {
      const words = moveWords(plan, armature, step, part);
      return words === null ? null : `${jointWords(armature.joints[part]!.name)} ${words}`;
    },
    ends: chainEnds(armature),
  };
}

/** The puppet at rest, where there is no plan for it. */
export function sceneAtRest(armature: CompleteArmature): PuppetScene {
  const shape = figureOf(armature);
  const pose = restPose(armature);
  return { shape, box: boxOf(shape, [pose]), stepCount: 1, poseAt: (step) => (step === 0 ? pose : null), isUnsure: () => false, moveWords: () => null, ends: chainEnds(armature) };
}

function rootMm(plan: Plan, armature: CompleteArmature, step: number): [number, number, number] {
  const standing = poseOf(armature, plan.rotations, step, [0, 0, 0]);
  const { min } = boxOf({ name: '', parts: figureOf(armature).parts.map((part) => ({ ...part, radiusMm: 0, ...(part.soleMm.length > 0 ? { fromMm: part.soleMm[0]!, toMm: part.soleMm[2]! } : {}) })) }, [standing]);
  return [0, -min[1], 0];
}
