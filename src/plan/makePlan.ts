/**
 * (track, armature, settings) → plan, in stages that are each made anew only when something they depend on has changed:
 *
 *   track, fitted body, captureFactor, mirror       → landmarks in stage axes, gaps bridged
 *   these, cutoffHz, smoother                      → motion
 *   motion, in, out, rate, on, timeScale, …        → poses on steps
 *   motion                                        → moments: moves and pauses; with the steps → moments on steps
 *   corrections of the balance, armature          → turns added
 *   pauses, poses, armature, how it follows, pins, corrections, how pauses stay alive → turns added
 *   poses, armature, how it follows, pins, added  → exact pose of the puppet on its set
 *   exact pose, armature                          → ordered pose: rounded turns, places of points
 *   ordered pose, poses, steps                    → speeds of the limbs
 *   both poses, what touches and is carried       → balance
 *   all of these, datum settings, taking view     → the plan
 */
import { solveCorrection, type CorrectionAsk, type CorrectionResult } from '../balance/correct/solveCorrection.ts';
import { correctionTurns } from '../balance/correctionTurns.ts';
import type { Balance } from '../balance/balance.ts';
import { performerMass, type MassPath } from '../balance/performerMass.ts';
import { DEFAULT_POISE, type PoiseSettings } from '../balance/poiseSettings.ts';
import { weightsOf } from '../balance/puppetMass.ts';
import type { FittedBody } from '../motion/fit/fittedBody.ts';
import type { JointName } from '../motion/joints.ts';
import type { Motion } from '../motion/motion.ts';
import { prepareTrack } from '../motion/prepareTrack.ts';
import { readingsOf, type Readings } from '../motion/readouts/readings.ts';
import { suggestCutoff, type CutoffSuggestion } from '../motion/suggestCutoff.ts';
import { motionOf } from '../motion/trackToMotion.ts';
import type { Track } from '../pose/track.ts';
import { sumOfAdded, type Added } from '../puppet/added.ts';
import { aliveTurns } from '../puppet/alive/aliveTurns.ts';
import type { PosesLater } from '../puppet/applyArmature.ts';
import type { Armature } from '../puppet/armature.ts';
import { completeArmature } from '../puppet/completeArmature.ts';
import { drivesOf } from '../puppet/drives.ts';
import { movePuppet, type MovedPuppet } from '../puppet/movePuppet.ts';
import type { PuppetJoint } from '../puppet/puppetPoses.ts';
import { DEFAULT_PUPPET_SETTINGS, type PuppetSettings } from '../puppet/puppetSettings.ts';
import { findMoments } from '../timing/moments/findMoments.ts';
import { headAndShoulders, type HeadAndShoulders } from '../timing/moments/headAndShoulders.ts';
import type { LimbRates } from '../timing/moments/limbRates.ts';
import { limbRatesOf } from '../timing/moments/limbRatesOf.ts';
import type { Moments, MomentsOnSteps } from '../timing/moments/moments.ts';
import { momentsOnSteps } from '../timing/moments/momentsOnSteps.ts';
import { sampleMotion } from '../timing/sampleMotion.ts';
import { turningPoints, type TurningPoint } from '../timing/snap/turningPoints.ts';
import { DEFAULT_TIMING, type TimingSettings } from '../timing/timingSettings.ts';
import { assemble } from './assemble.ts';
import { jointAngles } from './jointAngles.ts';
import { judgeAll } from './judgeAll.ts';
import { keptExtremes } from './keptExtremes.ts';
import { orderAll, type Ordered } from './ordered.ts';
import type { Plan } from './plan.ts';
import { remember } from './remember.ts';
import type { PlanSettings } from './settings.ts';
import { posesLater, putOnSteps, type Stepped } from './stepped.ts';
import { validateSettings } from './validateSettings.ts';

export interface Planner {
  /**
   * The plan; the same object again when nothing has changed. Tracks, armatures and bodies are compared by identity: give a
   * new object when the content is new.
   *
   * @throws NudgebookError `bad-settings`, `bad-track`, `no-person`
   */
  readonly plan: (track: Track, armature: Armature, settings: PlanSettings, parts?: PlanParts) => Plan;
  /** A correction of the balance over some steps of the plan; nothing is applied by it. Errors as for plan. */
  readonly correct: (track: Track, armature: Armature, settings: PlanSettings, ask: CorrectionAsk, parts?: PlanParts) => CorrectionResult;
  /** The motion that the plan is made from, shared with it (for charts between the steps). Errors as for plan. */
  readonly motion: (track: Track, settings: PlanSettings, body?: FittedBody | null) => Motion;
  /** The cut-off that the footage itself suggests, for the take as smoothing gets it; remembered likewise. Errors as for plan. */
  readonly suggestCutoff: (track: Track, settings: PlanSettings, body?: FittedBody | null) => CutoffSuggestion;
  /** What people call the angles of a joint of the performer, at the plan's steps; not remembered. Errors as for plan. */
  readonly readings: (track: Track, armature: Armature, settings: PlanSettings, joint: JointName, parts?: PlanParts) => Readings;
  /** The puppet's joint angles at every frame, for curves that run between the steps; remembered likewise. Errors as for plan. */
  readonly frameAngles: (track: Track, armature: Armature, settings: PlanSettings, parts?: PlanParts) => FrameAngles;
}

/** What a plan is made from besides take, armature and settings; what is left out is at its default. */
export interface PlanParts {
  /** The figure fitted to the track at the capture factor of the settings; without it the landmarks alone are read. */
  readonly body?: FittedBody | null;
  /** How the puppet follows, pins, curves, readings. The parts of this and of the next two are compared by identity too. */
  readonly puppet?: PuppetSettings;
  /** Marks, holds, pauses. */
  readonly timing?: TimingSettings;
  /** What touches, is tied, is carried; corrections. */
  readonly poise?: PoiseSettings;
}

/**
 * T frames, P joints of the puppet (order of `joints`).
 * - `timesS[T]` container seconds. `angleDeg[T·P]` as in Plan, NaN where missing. `state[T·P]`, `confidence[T·P]`,
 * `errorDeg[T·P]`, `turnErrorDeg[T·P]`, `unsure[T·P]` as in Plan.
 */
export interface FrameAngles {
  readonly joints: readonly PuppetJoint[];
  readonly timesS: Float64Array;
  readonly angleDeg: Float64Array;
  readonly confidence: Float32Array;
  readonly state: Uint8Array;
  readonly errorDeg: Float32Array;
  readonly turnErrorDeg: Float32Array;
  readonly unsure: Uint8Array;
}

/** What of the puppet's settings changes its exact pose, as separate arguments of a stage: readings and view leave it alone. */
type PoseSettings = Pick<PuppetSettings, 'drives' | 'curves' | 'pins' | 'plantFeet'>;

/** A planner that remembers the last result of each stage. Holds on to the last track it was given. */
export function createPlanner(): Planner {
  const prepareStage = remember(prepareTrack);
  const motionStage = remember(motionOf);
  const suggestStage = remember(suggestCutoff);

  const stepStage = remember(putOnSteps);

  const turnStage = remember((motion: Motion, joints: TimingSettings['snapJoints']): readonly TurningPoint[] => joints.flatMap((joint) => turningPoints(motion, joint)));

  const momentStage = remember(findMoments);
  const onStepsStage = remember((moments: Moments, { steps }: Stepped): MomentsOnSteps => momentsOnSteps(moments, steps.sourceTimeS));

  const aliveStage = remember((
    { pauses }: MomentsOnSteps, { steps, posesAt }: Stepped, performer: Motion, armature: Armature, drives: PoseSettings['drives'], curves: PoseSettings['curves'],
    pins: PoseSettings['pins'], plantFeet: boolean, others: Added | null, kept: Uint8Array | null, alive: TimingSettings['alive'],
  ): Added | null => aliveTurns({ pauses, posesAt, performer, steps, armature, settings: { drives, curves, pins, plantFeet }, others, kept }, alive));

  const correctStage = remember((corrections: PoiseSettings['corrections'], { steps }: Stepped, armature: Armature): Added | null =>
    correctionTurns(corrections, steps.sourceTimeS, armature));

  const addStage = remember((alive: Added | null, corrected: Added | null): Added | null => sumOfAdded([alive, corrected]));

  const moveStage = remember((
    motion: Motion, posesAt: PosesLater, armature: Armature, drives: PoseSettings['drives'], curves: PoseSettings['curves'],
    pins: PoseSettings['pins'], plantFeet: boolean, added: Added | null,
  ): MovedPuppet => movePuppet(posesAt, motion, armature, { drives, curves, pins, plantFeet }, added));

  const keepStage = remember((stepped: Stepped, armature: Armature, drives: PoseSettings['drives']): Uint8Array | null => keptExtremes(stepped, completeArmature(armature), { drives }));

  const orderStage = remember((moved: MovedPuppet, armature: Armature, kept: Uint8Array | null): Ordered => orderAll(moved, completeArmature(armature), kept));

  const headStage = remember(({ posesAt }: Stepped): HeadAndShoulders => headAndShoulders(posesAt(0)));

  const rateStage = remember(({ steps, posesAt }: Stepped, { endMm }: Ordered, armature: Armature): LimbRates => limbRatesOf({
    poses: posesAt(0), filmTimeS: steps.filmTimeS, heightMm: completeArmature(armature).heightMm, endMm,
  }));

  const performerStage = remember((body: FittedBody | null, table: PoiseSettings['table'], mirror: boolean): MassPath | null =>
    (body === null ? null : performerMass(body, table, mirror)));

  const balanceStage = remember(judgeAll);

  const planStage = remember((
    track: Track, motion: Motion, stepped: Stepped, moved: MovedPuppet, ordered: Ordered, moments: MomentsOnSteps, limbRates: LimbRates,
    balance: Balance, rate: number, on: number, datum: PuppetSettings['datum'], view: PuppetSettings['view'],
  ): Plan => ({ ...assemble(track, motion, stepped, moved, ordered, rate, on, datum, view), moments, limbRates, headAndShoulders: headStage(stepped), bentTime: stepped.bentTime, balance }));

  // lag in frames of the take is lag in time: so many steps of the film, in the container's clock
  const frameStage = remember((
    motion: Motion, armature: Armature, drives: PoseSettings['drives'], curves: PoseSettings['curves'], pins: PoseSettings['pins'],
    plantFeet: boolean, stepS: number, corrections: PoiseSettings['corrections'],
  ): FrameAngles => {
    const posesAt = posesLater((delay) => (delay === 0 ? motion : sampleMotion(motion, motion.timesS.map((t) => t - delay * stepS))));
    const added = correctionTurns(corrections, motion.timesS, armature);
    const puppet = movePuppet(posesAt, motion, armature, { drives, curves, pins, plantFeet }, added);
    const { joints, confidence, state, errorDeg, turnErrorDeg, unsure } = puppet;
    return { joints, timesS: motion.timesS, angleDeg: jointAngles(puppet), confidence, state, errorDeg, turnErrorDeg, unsure };
  });

  const motion = (track: Track, s: PlanSettings, body: FittedBody | null = null): Motion => {
    validateSettings(s);
    return motionStage(prepareStage(track, s.captureFactor, s.mirror, body), s.cutoffHz, s.smoother);
  };
  /** Everything that leads to a plan. */
  const stages = (
    track: Track, armature: Armature, s: PlanSettings,
    { body = null, puppet = DEFAULT_PUPPET_SETTINGS, timing = DEFAULT_TIMING, poise = DEFAULT_POISE }: PlanParts,
  ) => {
    const made = motion(track, s, body);
    const stepped = stepStage(made, s.inS, s.outS, s.captureFactor, s.rate, s.on, s.timeScale, timing.marks, timing.holdSpans, turnStage(made, timing.snapJoints));
    const moments = onStepsStage(momentStage(made, s.captureFactor), stepped);
    const { drives, curves, pins, plantFeet, apparentHeightM } = puppet;
    const corrected = correctStage(poise.corrections, stepped, armature);
    const kept = keepStage(stepped, armature, drives);
    const alive = aliveStage(moments, stepped, made, armature, drives, curves, pins, plantFeet, corrected, kept, timing.alive);
    const added = addStage(alive, corrected);
    const moved = moveStage(made, stepped.posesAt, armature, drives, curves, pins, plantFeet, added);
    const ordered = orderStage(moved, armature, kept);
    const performer = performerStage(body, poise.table, s.mirror);
    const balance = balanceStage(made, stepped, armature, moved, ordered, performer, apparentHeightM, poise);
    return { made, stepped, moments, alive, moved, kept, ordered, performer, balance, puppet, poise };
  };
  return {
    motion,
    suggestCutoff: (track, s, body = null) => {
      validateSettings(s);
      return suggestStage(prepareStage(track, s.captureFactor, s.mirror, body));
    },
    frameAngles: (track, armature, s, { body = null, puppet = DEFAULT_PUPPET_SETTINGS, poise = DEFAULT_POISE } = {}) => {
      const { drives, curves, pins, plantFeet } = puppet;
      const lags = drivesOf(completeArmature(armature), { drives }).some(({ delaySteps }) => delaySteps !== 0);
      const stepS = lags ? ((s.on / s.rate) * s.captureFactor) / s.timeScale : 0;
      return frameStage(motion(track, s, body), armature, drives, curves, pins, plantFeet, stepS, poise.corrections);
    },
    plan: (track, armature, s, parts = {}) => {
      const { made, stepped, moments, moved, ordered, balance, puppet } = stages(track, armature, s, parts);
      return planStage(track, made, stepped, moved, ordered, moments, rateStage(stepped, ordered, armature), balance, s.rate, s.on, puppet.datum, puppet.view);
    },
    readings: (track, armature, s, joint, parts = {}) => readingsOf(stages(track, armature, s, parts).stepped.posesAt(0), joint),
    correct: (track, armature, s, ask, parts = {}) => {
      const { made, stepped, alive, moved, kept, balance, puppet, poise, performer } = stages(track, armature, s, parts);
      const complete = completeArmature(armature);
      const { sourceTimeS } = stepped.steps;
      return solveCorrection({
        armature: complete, moved, balance, sourceTimeS, weights: weightsOf(complete, poise.props),
        // as the plan will be with it, past the memory of the stages: many are tried and one is kept
        trial: (correction) => {
          const corrections = [...poise.corrections, correction];
          const added = sumOfAdded([alive, correctionTurns(corrections, sourceTimeS, armature)]);
          const { drives, curves, pins, plantFeet, apparentHeightM } = puppet;
          const changed = movePuppet(stepped.posesAt, made, armature, { drives, curves, pins, plantFeet }, added);
          const after = judgeAll(made, stepped, armature, changed, orderAll(changed, complete, kept), performer, apparentHeightM, { ...poise, corrections });
          return { moved: changed, balance: after };
        },
      }, ask);
    },
  };
}

/** The plan in one go, nothing remembered. Errors as for {@link Planner.plan}. */
export function makePlan(track: Track, armature: Armature, settings: PlanSettings, parts: PlanParts = {}): Plan {
  return createPlanner().plan(track, armature, settings, parts);
}
