/**
 * (track, armature, settings) → plan, in stages that are each made anew only when something they depend on has changed:
 *
 *   track, fitted body, captureFactor, mirror       → landmarks in stage axes, gaps bridged
 *   these, cutoffHz, smoother                      → motion
 *   motion, in, out, rate, on, timeScale, …        → poses on steps
 *   poses, armature                                → joints of the puppet, angles, increments
 */
import type { FittedBody } from '../motion/fit/fittedBody.ts';
import type { Motion } from '../motion/motion.ts';
import { prepareTrack } from '../motion/prepareTrack.ts';
import { motionOf } from '../motion/trackToMotion.ts';
import { foundCount, frameCount, type Track } from '../pose/track.ts';
import { applyArmature, type PuppetJoint } from '../puppet/applyArmature.ts';
import type { Armature } from '../puppet/armature.ts';
import type { Poses } from '../timing/poses.ts';
import { sampleMotion } from '../timing/sampleMotion.ts';
import { layOutSteps, type Steps } from '../timing/steps.ts';
import { increments } from './increments.ts';
import { jointAngles } from './jointAngles.ts';
import type { Plan } from './plan.ts';
import type { PlanSettings } from './settings.ts';
import { validateSettings } from './validateSettings.ts';

export interface Planner {
  /**
   * The plan; the same object again when nothing has changed. Tracks, armatures and bodies are compared by identity: give a
   * new object when the content is new.
   *
   * @param body the figure fitted to the track at the capture factor of the settings; without it the landmarks alone are read
   *
   * @throws NudgebookError `bad-settings`, `bad-track`, `no-person`
   */
  readonly plan: (track: Track, armature: Armature, settings: PlanSettings, body?: FittedBody | null) => Plan;
  /** The motion that the plan is made from, shared with it (for charts between the steps). Errors as for plan. */
  readonly motion: (track: Track, settings: PlanSettings, body?: FittedBody | null) => Motion;
  /** The puppet's joint angles at every frame, for curves that run between the steps; remembered likewise. Errors as for plan. */
  readonly frameAngles: (track: Track, armature: Armature, settings: PlanSettings, body?: FittedBody | null) => FrameAngles;
}

/**
 * T frames, P joints of the puppet (order of `joints`).
 * - `timesS[T]` container seconds. `angleDeg[T·P]` as in Plan, NaN where missing. `state[T·P]`, `confidence[T·P]`,
 * `errorDeg[T·P]`, `unsure[T·P]` as in Plan.
 */
export interface FrameAngles {
  readonly joints: readonly PuppetJoint[];
  readonly timesS: Float64Array;
  readonly angleDeg: Float64Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly errorDeg: Float32Array;
  readonly unsure: Uint8Array;
}

/** A planner that remembers the last result of each stage. Holds on to the last track it was given. */
export function createPlanner(): Planner {
  const prepareStage = remember(prepareTrack);
  const motionStage = remember(motionOf);

  const stepStage = remember((
    motion: Motion, inS: number | null, outS: number | null, captureFactor: number, rate: number, on: number, timeScale: number,
  ): { steps: Steps; poses: Poses } => {
    const { timesS } = motion;
    const steps = layOutSteps({ inS, outS, captureFactor, rate, on, timeScale }, timesS[0]!, timesS[timesS.length - 1]!);
    return { steps, poses: sampleMotion(motion, steps.sourceTimeS) };
  });

  const planStage = remember((
    track: Track, motion: Motion, stepped: { steps: Steps; poses: Poses }, armature: Armature, rate: number, on: number,
  ): Plan => assemble(track, motion, stepped, armature, rate, on));

  const frameStage = remember((motion: Motion, armature: Armature): FrameAngles => {
    const puppet = applyArmature(motion, motion.observable, armature);
    const { joints, confidence, state, errorDeg, unsure } = puppet;
    return { joints, timesS: motion.timesS, angleDeg: jointAngles(puppet), confidence, state, errorDeg, unsure };
  });

  const motion = (track: Track, s: PlanSettings, body: FittedBody | null = null): Motion => {
    validateSettings(s);
    return motionStage(prepareStage(track, s.captureFactor, s.mirror, body), s.cutoffHz, s.smoother);
  };
  return {
    motion,
    frameAngles: (track, armature, s, body = null) => frameStage(motion(track, s, body), armature),
    plan: (track, armature, s, body = null) => {
      const made = motion(track, s, body);
      const stepped = stepStage(made, s.inS, s.outS, s.captureFactor, s.rate, s.on, s.timeScale);
      return planStage(track, made, stepped, armature, s.rate, s.on);
    },
  };
}

/** The plan in one go, nothing remembered. Errors as for {@link Planner.plan}. */
export function makePlan(track: Track, armature: Armature, settings: PlanSettings, body: FittedBody | null = null): Plan {
  return createPlanner().plan(track, armature, settings, body);
}

function assemble(
  track: Track, motion: Motion, { steps, poses }: { steps: Steps; poses: Poses }, armature: Armature, rate: number, on: number,
): Plan {
  const puppet = applyArmature(poses, motion.observable, armature);
  const angleDeg = jointAngles(puppet);
  const missed = frameCount(track) - foundCount(track);
  const warnings = [...motion.warnings];
  if (missed > 0) warnings.unshift(`No person was found in ${missed} of ${frameCount(track)} frames.`);
  return {
    rate,
    on,
    stepCount: steps.count,
    joints: puppet.joints,
    exposure: steps.exposure,
    filmTimeS: steps.filmTimeS,
    sourceTimeS: steps.sourceTimeS,
    rotations: puppet.rotations,
    angleDeg,
    ...increments(puppet, angleDeg),
    confidence: puppet.confidence,
    state: puppet.state,
    errorDeg: puppet.errorDeg,
    unsure: puppet.unsure,
    rootM: poses.rootM,
    fitted: motion.fitted,
    usedCutoffHz: motion.usedCutoffHz,
    warnings,
  };
}

/** The function with a memory of one: called again with the same arguments it gives the same result again. */
function remember<A extends readonly unknown[], R>(make: (...args: A) => R): (...args: A) => R {
  let last: { readonly args: A; readonly result: R } | undefined;
  return (...args) => {
    if (last === undefined || args.some((arg, k) => !Object.is(arg, last!.args[k]))) {
      last = { args, result: make(...args) };
    }
    return last.result;
  };
}
