/** A small made-up plan: four joints, six steps, with every kind of certainty in it. All numbers distinct on purpose. */
import { STATE_BRIDGED, STATE_MEASURED, STATE_MISSING } from '../../src/motion/motion.ts';
import { UNSURE_AT_LENS } from '../../src/motion/trust/unsure.ts';
import { unknownBalance } from '../../src/balance/unknownBalance.ts';
import type { Plan, PlanJoint } from '../../src/plan/plan.ts';

export const SAMPLE_JOINTS: readonly PlanJoint[] = [
  { name: 'head', kind: 'ball', source: 'head', axis: [0, 1, 0], observable: true, turnHidden: false },
  { name: 'leftClavicle', kind: 'ball', source: 'leftClavicle', axis: [0, 0, 1], observable: false, turnHidden: false },
  { name: 'leftElbow', kind: 'hinge', source: 'leftElbow', axis: [0, 0, 1], observable: true, turnHidden: false },
  { name: 'rightKnee', kind: 'hinge', source: 'rightKnee', axis: [0, 0, -1], observable: true, turnHidden: false },
];

/** Angles by joint and step; NaN where missing. The elbow is bridged at step 3 (index 2) and missing at step 5 (index 4). */
const ANGLES: readonly (readonly number[])[] = [
  [2, 3, 5, 4, 6, 9],
  [0, 0, 0, 0, 0, 0],
  [10, 14, 20, 31, Number.NaN, 42],
  [7, 6.5, 5, 5.5, 8, 8.25],
];

export function samplePlan(changes: Partial<Plan> = {}): Plan {
  const stepCount = 6;
  const width = SAMPLE_JOINTS.length;
  const angleDeg = new Float64Array(stepCount * width);
  const incrementDeg = new Float64Array(stepCount * width);
  const state = new Uint8Array(stepCount * width).fill(STATE_MEASURED);
  const confidence = new Float32Array(stepCount * width).fill(0.9);
  ANGLES.forEach((angles, j) => {
    angles.forEach((angle, s) => {
      const at = s * width + j;
      angleDeg[at] = angle;
      const turn = s === 0 ? 0 : angle - (angles[s - 1] ?? Number.NaN);
      incrementDeg[at] = SAMPLE_JOINTS[j]?.kind === 'ball' ? Math.abs(turn) : turn;
    });
  });
  state[2 * width + 2] = STATE_BRIDGED;
  state[4 * width + 2] = STATE_MISSING;
  confidence[1 * width + 3] = 0.3;
  return {
    rate: 24,
    on: 2,
    stepCount,
    joints: SAMPLE_JOINTS,
    exposure: Int32Array.from([1, 3, 5, 7, 9, 11]),
    holds: new Int32Array(stepCount).fill(2),
    exposureCount: 12,
    filmTimeS: Float64Array.from([0, 1, 2, 3, 4, 5], (s) => s / 12),
    sourceTimeS: Float64Array.from([0, 1, 2, 3, 4, 5], (s) => 0.5 + s / 12),
    rotations: new Float64Array(stepCount * width * 4),
    angleDeg,
    incrementDeg,
    orderedRotations: new Float64Array(stepCount * width * 4),
    orderedAngleDeg: angleDeg,
    turnDeg: new Float64Array(stepCount * width * 3),
    keyTurns: new Float64Array(stepCount * width).fill(Number.NaN),
    flags: new Uint8Array(stepCount * width),
    confidence,
    state,
    errorDeg: new Float32Array(stepCount * width).fill(6),
    turnErrorDeg: new Float32Array(stepCount * width).fill(Number.NaN),
    unsure: new Uint8Array(stepCount * width),
    rootM: new Float64Array(stepCount * 3),
    rootMm: new Float64Array(stepCount * 3),
    orderedRootMm: new Float64Array(stepCount * 3),
    feet: [],
    planted: new Uint8Array(0),
    holding: new Int32Array(stepCount).fill(-1),
    points: [],
    pointMm: new Float64Array(0),
    travelMm: new Float64Array(0),
    hour: new Float64Array(0),
    towardMm: new Float64Array(0),
    datums: [],
    moments: { moves: [], pauses: [] },
    limbRates: { turnDeg: new Float64Array(0), endMm: new Float64Array(0), heightsPerS: new Float64Array(0) },
    headAndShoulders: { headDeg: new Float64Array(stepCount), shouldersDeg: new Float64Array(stepCount), apart: new Uint8Array(stepCount), together: Number.NaN, lag: null },
    bentTime: { bent: [], left: [] },
    balance: unknownBalance(stepCount),
    performerHeightM: 1.74,
    fitted: false,
    usedCutoffHz: 6,
    warnings: [],
    ...changes,
  };
}

/** The same with a right knee that points at the lens at step 2 (index 1), known to 14°. */
export function doubtfulPlan(): Plan {
  const plan = samplePlan();
  const at = plan.joints.length + 3;
  return { ...plan, unsure: plan.unsure.map((bits, i) => (i === at ? UNSURE_AT_LENS : bits)), errorDeg: plan.errorDeg.map((error, i) => (i === at ? 14 : error)) };
}
