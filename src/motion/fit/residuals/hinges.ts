/** Joint limits that one camera needs to tell front from back: knees, hips stretched back, elbows. */
import {
  CREASE_SURE, ELBOW_BACK, ELBOW_BACK_SIGMA, ELBOW_SIDE_SIGMA, HIP_BACK, HIP_BACK_SIGMA, KNEE_SIGMA,
} from '../constants.ts';
import type { Figure } from '../figure.ts';
import { BONE, BONE_COUNT, HIP_AT, SPINE_AT } from '../layout.ts';
import type { NormalEquations } from '../normalEquations.ts';
import type { Problem } from '../problem.ts';
import { unitGradient } from './unitVector.ts';

const LEAST_EVIDENCE = 0.01;
type Triple = [number, number, number];
const cross = (a: Triple, b: Triple): Triple => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const read = (from: Float64Array, i: number): Triple => [from[i]!, from[i + 1]!, from[i + 2]!];

function unitAt(from: Float64Array, i: number): Triple {
  const v = read(from, i);
  const by = 1 / (Math.sqrt(dot(v, v)) || 1e-9);
  return [v[0] * by, v[1] * by, v[2] * by];
}

/** Rows min(0, (d_thigh × d_shank)·h)/.08 with h the unit hip axis: the knee bends one way only. */
export function kneeRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { directions, free } = figure;
  for (let t = 0; t < problem.frames; t++) {
    const evidence = Math.max(LEAST_EVIDENCE, problem.evidence[t]!);
    const h = unitAt(free, t * 12 + HIP_AT);
    for (let bone = BONE.leftThigh; bone <= BONE.rightThigh; bone += 2) {
      const i = (t * BONE_COUNT + bone) * 3;
      const thigh = read(directions, i);
      const shank = read(directions, i + 3);
      const axis = cross(thigh, shank);
      const bend = dot(axis, h);
      if (bend >= 0) continue;
      const by = 1 / KNEE_SIGMA;
      const byThigh = cross(shank, h);
      const byShank = cross(h, thigh);
      rows.open(t);
      rows.direction(t, bone, by * byThigh[0], by * byThigh[1], by * byThigh[2]);
      rows.direction(t, bone + 1, by * byShank[0], by * byShank[1], by * byShank[2]);
      unitGradient(rows, t, HIP_AT, free, t * 12 + HIP_AT, by * axis[0], by * axis[1], by * axis[2]);
      rows.emit(bend * by, evidence);
    }
  }
}

/** Rows max(0, -d_thigh·forward - .3)/.03 with forward = h × spine (units): a hip stretches back only so far. */
export function hipBackRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { directions, free } = figure;
  for (let t = 0; t < problem.frames; t++) {
    const evidence = Math.max(LEAST_EVIDENCE, problem.evidence[t]!);
    const h = unitAt(free, t * 12 + HIP_AT);
    const s = unitAt(free, t * 12 + SPINE_AT);
    const forward = cross(h, s);
    for (let bone = BONE.leftThigh; bone <= BONE.rightThigh; bone += 2) {
      const d = read(directions, (t * BONE_COUNT + bone) * 3);
      const past = -dot(d, forward) - HIP_BACK;
      if (past <= 0) continue;
      const by = -1 / HIP_BACK_SIGMA;
      const byHip = cross(s, d);
      const bySpine = cross(d, h);
      rows.open(t);
      rows.direction(t, bone, by * forward[0], by * forward[1], by * forward[2]);
      unitGradient(rows, t, HIP_AT, free, t * 12 + HIP_AT, by * byHip[0], by * byHip[1], by * byHip[2]);
      unitGradient(rows, t, SPINE_AT, free, t * 12 + SPINE_AT, by * bySpine[0], by * bySpine[1], by * bySpine[2]);
      rows.emit(past / HIP_BACK_SIGMA, evidence);
    }
  }
}

/** A body direction carried along with the upper arm, and how a component along it depends on everything. */
export interface Carried {
  readonly value: number;
  readonly byForearm: Triple;
  readonly byUpperArm: Triple;
  readonly byDown: Triple;
  readonly byAxis: Triple;
}

/**
 * f·R(x), R the smallest rotation that takes `u` to `v`, `x` square to `u`: f·x - (v·x)(f·u + f·v)/(1 + u·v).
 * The rotation is undefined where v = -u; callers give such frames no weight.
 */
export function carried(f: Triple, u: Triple, v: Triple, x: Triple): Carried {
  const whole = 1 + dot(u, v);
  const a = dot(v, x) / whole;
  const b = (dot(f, u) + dot(f, v)) / whole;
  const ab = a * b;
  const mix = (p: Triple, kp: number, q: Triple, kq: number, r: Triple, kr: number): Triple =>
    [0, 1, 2].map((k) => p[k]! * kp + q[k]! * kq + r[k]! * kr) as Triple;
  return {
    value: dot(f, x) - a * (dot(f, u) + dot(f, v)),
    byForearm: mix(x, 1, u, -a, v, -a),
    byUpperArm: mix(x, -b, f, -a, u, ab),
    byDown: mix(f, -a, v, ab, x, 0),
    byAxis: mix(f, 1, v, -b, x, 0),
  };
}

/**
 * Rows for both elbows: the forearm may not swing to the back of the crease, min(0, d_FA·n + .05)/.1, and seldom to its side,
 * d_FA·m/.5. The crease direction n is the body's forward, and m its side, carried along by the smallest rotation from
 * trunk-down to the upper arm.
 */
export function elbowHingeRows(problem: Problem, figure: Figure, rows: NormalEquations): void {
  const { directions, free } = figure;
  for (let t = 0; t < problem.frames; t++) {
    const evidence = Math.max(LEAST_EVIDENCE, problem.evidence[t]!);
    const hipAt = t * 12 + HIP_AT;
    const spineAt = t * 12 + SPINE_AT;
    const s = unitAt(free, spineAt);
    const down: Triple = [-s[0], -s[1], -s[2]];
    const h = read(free, hipAt);
    // Side: the hip axis made square to the spine; forward = side × spine.
    const lift = dot(h, s);
    const flat: Triple = [h[0] - lift * s[0], h[1] - lift * s[1], h[2] - lift * s[2]];
    const flatSize = Math.sqrt(dot(flat, flat));
    if (flatSize < 1e-6) continue;
    const side: Triple = [flat[0] / flatSize, flat[1] / flatSize, flat[2] / flatSize];
    const forward = cross(side, s);
    for (let bone = BONE.leftUpperArm; bone <= BONE.rightUpperArm; bone += 2) {
      const i = (t * BONE_COUNT + bone) * 3;
      const upper = read(directions, i);
      const fore = read(directions, i + 3);
      const sure = Math.min(1, Math.max(0, (1 + dot(down, upper)) / CREASE_SURE));
      if (sure < 0.01) continue;
      const weight = evidence * sure * sure;
      for (let which = 0; which < 2; which++) {
        const c = carried(fore, down, upper, which === 0 ? forward : side);
        const past = which === 0 ? Math.min(0, c.value + ELBOW_BACK) : c.value;
        if (past === 0) continue;
        const by = 1 / (which === 0 ? ELBOW_BACK_SIGMA : ELBOW_SIDE_SIGMA);
        rows.open(t);
        rows.direction(t, bone, by * c.byUpperArm[0], by * c.byUpperArm[1], by * c.byUpperArm[2]);
        rows.direction(t, bone + 1, by * c.byForearm[0], by * c.byForearm[1], by * c.byForearm[2]);
        // Gradient by side and by the unit spine. forward = side × s: g·(dside × s) = dside·(s × g), g·(side × ds) = ds·(g × side).
        const g = c.byAxis;
        const bySide: Triple = which === 0 ? cross(s, g) : g;
        const bySpine: Triple = which === 0 ? cross(g, side) : [0, 0, 0];
        // side = flat/|flat|, flat = h - (h·s)s.
        const along = dot(bySide, side);
        const byFlat: Triple = [0, 1, 2].map((k) => (bySide[k]! - along * side[k]!) / flatSize) as Triple;
        const across = dot(byFlat, s);
        const total: Triple = [0, 1, 2].map((k) =>
          by * (bySpine[k]! - c.byDown[k]! - across * h[k]! - lift * byFlat[k]!)) as Triple;
        rows.vector(t, HIP_AT, by * (byFlat[0] - across * s[0]), by * (byFlat[1] - across * s[1]), by * (byFlat[2] - across * s[2]));
        unitGradient(rows, t, SPINE_AT, free, spineAt, total[0], total[1], total[2]);
        rows.emit(past * by, weight);
      }
    }
  }
}
