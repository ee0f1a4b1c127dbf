/** The plan's steps as a scene to be painted. */
import { certaintyAt } from '../../../charts/certainty.ts';
import { boxOf, type FigurePose } from '../../../charts/figure/figure.ts';
import { jointWords } from '../../../charts/figures.ts';
import { readVec3 } from '../../../numeric/vector3.ts';
import type { Plan } from '../../../plan/plan.ts';
import type { CompleteArmature } from '../../../puppet/complete.ts';
import type { PuppetScene } from '../../puppet3d/scene.ts';
import { chainEnds, figureOf, poseOf, restPose } from './figureOf.ts';
import { moveWords } from './moves/moveWords.ts';

/** Poses that are kept; the playhead goes to and fro among a few. */
const KEEP = 64;
/** Of so many steps at most the box is made; it needn't be exact to the millimetre. */
const BOX_STEPS = 200;

/** Whether a plan was made for this armature: a new one is on its way otherwise. */
export function isPlanOf(plan: Plan, armature: CompleteArmature): boolean {
  return plan.joints.length === armature.joints.length && plan.joints.every((joint, p) => joint.name === armature.joints[p]!.name);
}

/** The puppet at each step, as the sheet orders it: every joint rounded to what a hand can set. */
export function sceneOfPlan(plan: Plan, armature: CompleteArmature): PuppetScene {
  const kept = new Map<number, FigurePose>();
  const poseAt = (step: number): FigurePose | null => {
    if (step < 0 || step >= plan.stepCount) return null;
    let pose = kept.get(step);
    if (pose === undefined) {
      pose = poseOf(armature, plan.orderedRotations, step, readVec3(plan.orderedRootMm, step));
      if (kept.size >= KEEP) kept.clear();
      kept.set(step, pose);
    }
    return pose;
  };
  const every = Math.max(1, Math.ceil(plan.stepCount / BOX_STEPS));
  const some = Array.from({ length: Math.ceil(plan.stepCount / every) }, (_, i) => poseAt(i * every)).filter((pose) => pose !== null);
  const shape = figureOf(armature);
  return {
    shape,
    box: boxOf(shape, some),
    stepCount: plan.stepCount,
    poseAt,
    isUnsure: (step, part) => certaintyAt(plan, step, part) === 'unsure',
    moveWords: (step, part) => {
      const words = moveWords(plan, step, part);
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
