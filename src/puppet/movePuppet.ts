/**
 * The whole way from the performer's poses to the puppet's exact pose on its set: mapping and limits, floor, pins.
 */
import { makeSignsContinuous } from '../numeric/quaternionSeries.ts';
import type { Added } from './added.ts';
import { applyArmature, type PosesLater } from './applyArmature.ts';
import type { Armature } from './armature.ts';
import { completeArmature } from './completeArmature.ts';
import { drivesOf } from './drives.ts';
import { feetOf, standingFeet, type Foot } from './feet.ts';
import { pinLimbs } from './pinLimbs.ts';
import { pathOf } from './puppetPath.ts';
import type { PuppetPoses } from './puppetPoses.ts';
import type { PuppetSettings } from './puppetSettings.ts';
import { standOnFloor, type PlacedStand } from './standOnFloor.ts';

/**
 * - `rootMm[N·3]` start of the root bone on the set, mm: X forward (toward the camera), Y above the stage floor, Z to the left of the
 *   picture; NaN where missing.
 * - `feet` F bones with a sole; `stands[N·F]` 1 where one stands; `placed` each stand with its place on the floor.
 */
export interface MovedPuppet extends PuppetPoses {
  readonly rootMm: Float64Array;
  readonly feet: readonly Foot[];
  readonly stands: Uint8Array;
  readonly placed: readonly PlacedStand[];
}

/** What of the performer's motion as a whole is needed besides its poses. */
export interface PerformerFacts {
  readonly observable: Uint8Array;
  readonly legLengthM: number;
}

/**
 * @param posesAt the performer at N moments, so many steps later
 * @param added put on top of the performance at the same moments
 */
export function movePuppet(
  posesAt: PosesLater, { observable, legLengthM }: PerformerFacts, armature: Armature,
  settings: Pick<PuppetSettings, 'drives' | 'curves' | 'pins' | 'plantFeet'>, added: Added | null = null,
): MovedPuppet {
  const complete = completeArmature(armature);
  const drives = drivesOf(complete, settings);
  const poses = applyArmature(posesAt, observable, armature, settings, added);
  const root = drives[0];
  const rootMm = pathOf(complete, drives, posesAt(root?.delaySteps ?? 0).rootM, legLengthM, poses.rotations);
  const feet = feetOf(complete, drives);
  const stands = settings.plantFeet ? standingFeet(feet, posesAt) : new Uint8Array(feet.length * posesAt(0).timesS.length);
  const shiftMm = added?.rootMm ?? null;
  const placed = settings.plantFeet ? standOnFloor(complete, feet, stands, rootMm, poses.rotations, poses.flags, shiftMm, posesAt(0).timesS) : [];
  if (!settings.plantFeet && shiftMm !== null) for (let i = 0; i < rootMm.length; i++) rootMm[i]! += shiftMm[i]!;
  if (settings.pins.length > 0) pinLimbs(complete, settings.pins, posesAt(0).timesS, rootMm, poses.rotations, poses.flags);
  makeSignsContinuous(poses.rotations, rootMm.length / 3, poses.joints.length);
  return { ...poses, rootMm, feet, stands, placed };
}
