/** Depth residual: the model's world landmarks know which way a bone leans in depth, but squeeze it and shift it. */
import { DEPTH_CAUCHY } from '../constants.ts';
import type { Figure } from '../figure.ts';
import {
  BONE_COUNT, DEPTH_VECTORS, depthGainAt, depthOffsetAt, HIP_AT, LENGTH_OF_BONE, LOG_LENGTH_AT, SHOULDER_AT, SPINE_AT,
} from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';

const TRUNK_AT = [HIP_AT, SPINE_AT, SHOULDER_AT];

/** Rows (dz_world - g·dz - c)/σ for the 8 bones, hip half-axis, spine and shoulder half-axis; Cauchy 2. */
export function worldDepthRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { globals, directions, free } = figure;
  const lengths = [0, 1, 2, 3].map((i) => Math.exp(globals[LOG_LENGTH_AT + i]!));
  for (let k = 0; k < problem.cameras.length; k++) {
    const camera = problem.cameras[k]!;
    for (let t = 0; t < problem.frames; t++) {
      const evidence = problem.evidence[t]!;
      if (evidence === 0) continue;
      for (let v = 0; v < DEPTH_VECTORS; v++) {
        const measured = camera.depth[t * DEPTH_VECTORS + v]!;
        const weight = camera.depthWeight[t * DEPTH_VECTORS + v]! * evidence;
        if (Number.isNaN(measured) || weight === 0) continue;
        const gainAt = depthGainAt(k, v);
        const offsetAt = depthOffsetAt(k, v);
        const gain = globals[gainAt]!;
        const by = 1 / camera.depthSigmaM[t * DEPTH_VECTORS + v]!;
        const x = camera.rotation[6]! * by;
        const y = camera.rotation[7]! * by;
        const z = camera.rotation[8]! * by;
        let depth: number;
        rows.open(t);
        if (v < BONE_COUNT) {
          const i = (t * BONE_COUNT + v) * 3;
          const kind = LENGTH_OF_BONE[v]!;
          const length = lengths[kind]!;
          depth = length * (x * directions[i]! + y * directions[i + 1]! + z * directions[i + 2]!);
          const scale = -gain * length;
          rows.direction(t, v, scale * x, scale * y, scale * z);
          rows.global(LOG_LENGTH_AT + kind, -gain * depth);
        } else {
          const at = TRUNK_AT[v - BONE_COUNT]!;
          const i = t * 12 + at;
          depth = x * free[i]! + y * free[i + 1]! + z * free[i + 2]!;
          rows.vector(t, at, -gain * x, -gain * y, -gain * z);
        }
        rows.global(gainAt, -depth);
        rows.global(offsetAt, -by);
        rows.emit((measured - globals[offsetAt]!) * by - gain * depth, weight, 'cauchy', DEPTH_CAUCHY);
      }
    }
  }
}
