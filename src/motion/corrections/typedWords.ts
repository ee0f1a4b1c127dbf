/**
 * Typed angles of the figure: in the frame itself the angle is held as typed; there the fit was δ beside it, and in the frames about
 * it is believed to be beside the truth by what is left of δ (`spread.ts`).
 */
import type { Figure } from '../fit/figure.ts';
import type { AngleRow } from '../fit/handSet.ts';
import { BONE, BONE_END, POINT } from '../fit/layout.ts';
import { measureAngle, type FigureMeasure } from '../fit/measures.ts';
import type { Problem } from '../fit/problem.ts';
import type { CorrectableJoint } from './angleMeasures.ts';
import type { TypedAngle } from './corrections.ts';
import { frameAt } from './moments.ts';
import { speedOf } from './placedWords.ts';
import { clockOf, spreadWords, type Word } from './spread.ts';

const RAD = Math.PI / 180;
/** A typed angle is held within this; what is carried over is as rough as a person's eye near it and as the fit out of reach (chosen). */
const KEY_SIGMA_RAD = 0.25 * RAD;
const NEAR_SIGMA_RAD = 1 * RAD;
const FAR_SIGMA_RAD = 10 * RAD;
const LEAST_SHARE = 0.02;

/** What is measured for each joint that the figure has; head and neck are turned apart (`carried.ts`). */
export const FIGURE_MEASURES: Readonly<Partial<Record<CorrectableJoint, FigureMeasure>>> = {
  leftElbow: { kind: 'flexion', bone: BONE.leftUpperArm }, rightElbow: { kind: 'flexion', bone: BONE.rightUpperArm },
  leftKnee: { kind: 'flexion', bone: BONE.leftThigh }, rightKnee: { kind: 'flexion', bone: BONE.rightThigh },
  leftShoulder: { kind: 'elevation', bone: BONE.leftUpperArm }, rightShoulder: { kind: 'elevation', bone: BONE.rightUpperArm },
  leftHip: { kind: 'hipFlexion', bone: BONE.leftThigh }, rightHip: { kind: 'hipFlexion', bone: BONE.rightThigh },
  spine: { kind: 'lean' },
};

export interface TypedRows {
  readonly rows: readonly AngleRow[];
  readonly keys: readonly number[];
  /** How much of each joint's error is known [T], 0..1, by joint. */
  readonly shares: ReadonlyMap<CorrectableJoint, Float64Array>;
}

export function typedRows(problem: Problem, figure: Figure, angles: readonly TypedAngle[]): TypedRows {
  const rows: AngleRow[] = [];
  const keys: number[] = [];
  const shares = new Map<CorrectableJoint, Float64Array>();
  for (const [joint, measure] of Object.entries(FIGURE_MEASURES) as [CorrectableJoint, FigureMeasure][]) {
    const words = angles.flatMap((typed): Word[] => {
      const frame = typed.joint === joint ? frameAt(problem.timesS, typed.timeS) : -1;
      return frame < 0 ? [] : [{ frame, values: [typed.angleDeg * RAD - measureAngle(figure, frame, measure)] }];
    });
    if (words.length === 0) continue;
    const mover = measure.kind === 'lean' ? POINT.leftShoulder : BONE_END[measure.bone + (measure.kind === 'flexion' ? 1 : 0)]!;
    const { values, share } = spreadWords(clockOf(problem.timesS, speedOf(figure, mover, problem.timesS), new Float64Array(problem.frames)), words);
    const isKey = new Set(words.map(({ frame }) => frame));
    for (let t = 0; t < problem.frames; t++) {
      if (share[t]! < LEAST_SHARE) continue;
      const angleRad = measureAngle(figure, t, measure) + values[t]!;
      const square = NEAR_SIGMA_RAD ** 2 + FAR_SIGMA_RAD ** 2 * (1 - share[t]!);
      const weight = problem.evidence[t]! + (1 - problem.evidence[t]!) * share[t]!;
      const isHinge = measure.kind === 'flexion' || measure.kind === 'elevation';
      rows.push({
        frame: t, measure, angleRad: isHinge ? Math.max(0, angleRad) : angleRad, sigmaRad: isKey.has(t) ? KEY_SIGMA_RAD : Math.sqrt(square / Math.max(0.05, weight)),
      });
      if (isKey.has(t)) keys.push(t);
    }
    shares.set(joint, share);
  }
  return { rows, keys: [...new Set(keys)].sort((a, b) => a - b), shares };
}
