/** Made-up performances that lean, as plans of any puppet, and their mirror pictures: what corrections are tried on. */
import type { CorrectionSources, Trial } from '../../../src/balance/correct/correctionShapes.ts';
import { correctionTurns } from '../../../src/balance/correctionTurns.ts';
import { judgeBalance } from '../../../src/balance/judgeBalance.ts';
import { DEFAULT_POISE, type PoiseCorrection } from '../../../src/balance/poiseSettings.ts';
import { weightsOf } from '../../../src/balance/puppetMass.ts';
import { JOINT, JOINT_COUNT, JOINT_NAMES, type JointName } from '../../../src/motion/joints.ts';
import { fromRotationVector } from '../../../src/numeric/quaternion.ts';
import type { Added } from '../../../src/puppet/added.ts';
import type { Armature } from '../../../src/puppet/armature.ts';
import { completeArmature } from '../../../src/puppet/completeArmature.ts';
import { movePuppet } from '../../../src/puppet/movePuppet.ts';
import { orderMoves } from '../../../src/puppet/orderMoves.ts';
import { orderRoot } from '../../../src/puppet/orderRoot.ts';
import { DEFAULT_PUPPET_SETTINGS } from '../../../src/puppet/puppetSettings.ts';
import { performerHeightM } from '../../../src/puppet/timeScale.ts';
import type { Poses } from '../../../src/timing/poses.ts';

export const STEPS = 48;
const STEP_S = 1 / 12;
const LEG_M = 0.85;
const RAD = Math.PI / 180;

type Triple = readonly [number, number, number];

/** Leans of a performer in degrees about forward, up and right, reached at the middle of the take and left again; and what stands. */
export interface Lean {
  readonly turnsDeg: Partial<Readonly<Record<JointName, Triple>>>;
  /** The foot that is lifted from step 14 to 33; `null`: both stand throughout. */
  readonly lifted: 'left' | 'right' | null;
  /** The foot that lands a step after the take has begun: of two that stand, the one that stands longer holds. */
  readonly lands: 'left' | 'right';
}

function otherSide(name: JointName): JointName {
  return (name.startsWith('left') ? name.replace('left', 'right') : name.replace('right', 'left')) as JointName;
}

/** Left for right; turns about forward and up go the other way. */
export function mirrored({ turnsDeg, lifted, lands }: Lean): Lean {
  return {
    turnsDeg: Object.fromEntries(Object.entries(turnsDeg).map(([name, [x, y, z]]) => [otherSide(name as JointName), [-x, -y, z]])),
    lifted: lifted === null ? null : lifted === 'left' ? 'right' : 'left', lands: lands === 'left' ? 'right' : 'left',
  };
}

function posesOf({ turnsDeg, lifted, lands }: Lean): Poses {
  const rotations = new Float64Array(STEPS * JOINT_COUNT * 4);
  const rootM = new Float64Array(STEPS * 3);
  const contacts = new Uint8Array(STEPS * 2).fill(1);
  for (let s = 0; s < STEPS; s++) {
    const u = Math.sin((Math.PI * s) / (STEPS - 1)) ** 2;
    // lifted and set down within the first and last dozen steps
    const up = lifted === null ? 0 : Math.min(1, Math.max(0, Math.min(s - 12, 35 - s) / 5));
    for (const name of JOINT_NAMES) {
      const [x, y, z] = turnsDeg[name] ?? [0, 0, 0];
      const bend = lifted !== null && name === `${lifted}Hip` ? 35 * up : lifted !== null && name === `${lifted}Knee` ? -60 * up : 0;
      rotations.set(fromRotationVector([x * u * RAD, y * u * RAD, (z * u + bend) * RAD]), (s * JOINT_COUNT + JOINT[name]) * 4);
    }
    rootM.set([0, LEG_M, 0], s * 3);
    if (lifted !== null && s >= 14 && s <= 33) contacts[s * 2 + (lifted === 'left' ? 0 : 1)] = 0;
  }
  contacts[lands === 'left' ? 0 : 1] = 0;
  const size = STEPS * JOINT_COUNT;
  return {
    timesS: Float64Array.from({ length: STEPS }, (_, s) => s * STEP_S), rotations, rootM, contacts,
    confidence: new Float32Array(size).fill(1), state: new Uint8Array(size), errorDeg: new Float32Array(size).fill(3), turnErrorDeg: new Float32Array(size).fill(3), unsure: new Uint8Array(size),
  };
}

export interface Leaning extends CorrectionSources {
  /** The plan with nothing in it. */
  readonly plain: Trial;
  /** What a correction adds, as the plan has it. */
  readonly addedBy: (correction: PoiseCorrection) => Added | null;
}

/** A plan of a lean, as the planner makes it, without a take. */
export function leaning(document: Armature, lean: Lean): Leaning {
  const armature = completeArmature(document);
  const poses = posesOf(lean);
  const { timesS } = poses;
  const facts = { observable: new Uint8Array(JOINT_COUNT).fill(1), legLengthM: LEG_M };
  const steps = { count: STEPS, exposure: Int32Array.from({ length: STEPS }, (_, s) => s + 1), holds: new Int32Array(STEPS).fill(1), filmTimeS: timesS, sourceTimeS: timesS };
  const planWith = (corrections: readonly PoiseCorrection[]): Trial => {
    const moved = movePuppet(() => poses, facts, document, DEFAULT_PUPPET_SETTINGS, correctionTurns(corrections, timesS, document));
    const { rotations } = orderMoves(armature, moved.rotations);
    const { root } = orderRoot(armature, moved.feet, moved.placed, moved.rootMm, rotations);
    const balance = judgeBalance({
      armature, moved, ordered: { rotations, rootMm: root }, poses, performerHeightM: performerHeightM(LEG_M), performer: null, apparentHeightM: null, steps,
    }, { ...DEFAULT_POISE, corrections });
    return { moved, balance };
  };
  const plain = planWith([]);
  return {
    armature, ...plain, plain, weights: weightsOf(armature, []), sourceTimeS: timesS,
    trial: (correction) => planWith([correction]), addedBy: (correction) => correctionTurns([correction], timesS, document),
  };
}
