/** Raw elbow angle: tells flexion where depth is squeezed, through a gain and an offset of the take. Not for knees (it made them worse in the lab). */
import {
  ELBOW_CAUCHY, ELBOW_FRACTION_FROM, ELBOW_FRACTION_SPAN, ELBOW_LEAST_WEIGHT, ELBOW_SIGMA_RAD,
} from '../constants.ts';
import type { Figure } from '../figure.ts';
import { BONE_COUNT, DEPTH_VECTORS, elbowGainAt, elbowOffsetAt } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Observations, Problem } from '../problem.ts';
import { LEAST_SINE, sineBetween } from './bend.ts';

/** Rows (θ_raw - a - g·θ)/12°, Cauchy 2√8, times clip((in-plane fraction - .5)/.3, .02, 1). */
export function elbowAngleRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { directions: d, globals } = figure;
  for (let k = 0; k < problem.cameras.length; k++) {
    const camera = problem.cameras[k]!;
    // The reader has looked at the raw angle too.
    if (camera.read !== null) continue;
    const gain = globals[elbowGainAt(k)]!;
    const offset = globals[elbowOffsetAt(k)]!;
    for (let t = 0; t < problem.frames; t++) {
      for (let side = 0; side < 2; side++) {
        const raw = camera.elbowRad[t * 2 + side]!;
        const evidence = problem.evidence[t]! * camera.depthWeight[t * DEPTH_VECTORS + side * 2 + 1]!;
        if (Number.isNaN(raw) || evidence === 0) continue;
        const upper = side * 2;
        const i = (t * BONE_COUNT + upper) * 3;
        const j = i + 3;
        const sin = sineBetween(d, i, j);
        const angle = Math.atan2(sin, d[i]! * d[j]! + d[i + 1]! * d[j + 1]! + d[i + 2]! * d[j + 2]!);
        const fraction = Math.min(inPlane(camera, d, i), inPlane(camera, d, j));
        const trust = Math.min(1, Math.max(ELBOW_LEAST_WEIGHT, (fraction - ELBOW_FRACTION_FROM) / ELBOW_FRACTION_SPAN));
        // dθ/d(d₁) = -(d₂ - cosθ·d₁)/sinθ; the part along d₁ has no effect in its tangent plane.
        const by = gain / Math.max(LEAST_SINE, sin) / ELBOW_SIGMA_RAD;
        rows.open(t);
        rows.direction(t, upper, by * d[j]!, by * d[j + 1]!, by * d[j + 2]!);
        rows.direction(t, upper + 1, by * d[i]!, by * d[i + 1]!, by * d[i + 2]!);
        rows.global(elbowGainAt(k), -angle / ELBOW_SIGMA_RAD);
        rows.global(elbowOffsetAt(k), -1 / ELBOW_SIGMA_RAD);
        rows.emit((raw - offset - gain * angle) / ELBOW_SIGMA_RAD, evidence * trust, 'cauchy', ELBOW_CAUCHY);
      }
    }
  }
}

/** Projected length over length of the unit direction at `i`, as the camera sees it (its depth axis is the third row). */
function inPlane(camera: Observations, d: Float64Array, i: number): number {
  const r = camera.rotation;
  const z = r[6]! * d[i]! + r[7]! * d[i + 1]! + r[8]! * d[i + 2]!;
  return Math.sqrt(Math.max(0, 1 - z * z));
}
