/**
 * How far each joint's angle is to be trusted at each frame: one sigma of its error, and whether one camera can know it at all.
 */
import { JOINT_COUNT } from '../joints.ts';
import { STATE_BRIDGED, STATE_MISSING } from '../motion.ts';
import { JOINT_LANDMARKS } from '../jointLandmarks.ts';
import { UNSURE_AT_LENS, UNSURE_BRIDGED, UNSURE_HIDDEN } from './unsure.ts';

/** What is known of each joint before its error is judged; shapes as in Motion. */
export interface TrustEvidence {
  readonly fitted: boolean;
  /** Least visibility of the joint's landmarks `[T·J]`, 0..1. */
  readonly visibility: Float32Array;
  readonly state: Uint8Array;
  /** `[T·J]` 1 where a landmark of the joint was not seen in that frame. */
  readonly hidden: Uint8Array;
  /** `[T·J]` 1 where the joint belongs to a limb that points at the lens; `null` without a fit. */
  readonly atLens: Uint8Array | null;
}

export interface JointTrust {
  /** `[T·J]` degrees, one sigma; NaN where missing or not observable. */
  readonly errorDeg: Float32Array;
  /** `[T·J]` UNSURE_* bits. */
  readonly unsure: Uint8Array;
}

/** One sigma in plain sight, degrees, by what it was read from. First guess from docs/accuracy.md, until calibrated. */
const PLAIN_DEG = { fitted: 6, alone: 13 } as const;
/** How much wider where nothing is seen, and where the limb points at the lens. */
const UNSEEN_TIMES = 3;
const AT_LENS_TIMES = 2.5;

/** Errors and doubts of every joint; a joint that these landmarks never show gets NaN and no doubt. */
export function jointTrust(evidence: TrustEvidence): JointTrust {
  const n = evidence.state.length;
  const errorDeg = new Float32Array(n).fill(Number.NaN);
  const unsure = new Uint8Array(n);
  for (let i = 0; i < n; i++) {
    const state = evidence.state[i]!;
    if (state === STATE_MISSING || JOINT_LANDMARKS[i % JOINT_COUNT]!.length === 0) continue;
    const seen = Math.min(1, Math.max(0, evidence.visibility[i]!));
    const atLens = evidence.atLens?.[i] === 1;
    const plain = evidence.fitted ? PLAIN_DEG.fitted : PLAIN_DEG.alone;
    errorDeg[i] = plain * (seen + (1 - seen) * UNSEEN_TIMES) * (atLens ? AT_LENS_TIMES : 1);
    unsure[i] = (atLens ? UNSURE_AT_LENS : 0)
      | (evidence.hidden[i] === 1 ? UNSURE_HIDDEN : 0)
      | (state === STATE_BRIDGED && evidence.hidden[i] !== 1 ? UNSURE_BRIDGED : 0);
  }
  return { errorDeg, unsure };
}
