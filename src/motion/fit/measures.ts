/**
 * Angles of the figure in one frame, as a person may type them, and how they change with the figure's vectors.
 * Vectors are in the first camera's frame; the signs are those of `corrections/angleMeasures.ts`.
 */
import type { Figure } from './figure.ts';
import { gravityOf } from './gravity.ts';
import { BONE_COUNT, HIP_AT, PITCH_AT, ROLL_AT, SHOULDER_AT, SPINE_AT } from './layout.ts';
import type { NormalEquations } from './normalEquations.ts';

/** `bone` is the upper bone of the limb (0, 2, 4, 6); the trunk's lean has none. */
export type FigureMeasure =
  | { readonly kind: 'flexion' | 'elevation' | 'hipFlexion'; readonly bone: number }
  | { readonly kind: 'lean' };

type Triple = readonly [number, number, number];
/** Hip half-axis, spine, shoulder half-axis, upper and lower bone: 15 numbers. */
type Parts = Float64Array;
const H = 0;
const S = 3;
const A = 6;
const U = 9;
const L = 12;
/** Step of the central difference through which slopes are taken: the angles are smooth, and rows of this kind are few. */
const NUDGE = 1e-5;

const PARTS_OF: Readonly<Record<FigureMeasure['kind'], readonly number[]>> = {
  flexion: [U, L], elevation: [S, A, U], hipFlexion: [H, S, U], lean: [H, S],
};

function gather(figure: Figure, frame: number, measure: FigureMeasure): Parts {
  const parts = new Float64Array(15);
  const f = frame * 12;
  parts.set(figure.free.subarray(f + HIP_AT, f + SHOULDER_AT + 3), H);
  if (measure.kind === 'lean') return parts;
  const d = (frame * BONE_COUNT + measure.bone) * 3;
  parts.set(figure.directions.subarray(d, d + 6), U);
  return parts;
}

const at = (p: Parts, i: number): Triple => [p[i]!, p[i + 1]!, p[i + 2]!];
const dot = (a: Triple, b: Triple): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Triple, b: Triple): Triple => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const unit = (a: Triple): Triple => {
  const by = 1 / (Math.hypot(...a) || 1e-12);
  return [a[0] * by, a[1] * by, a[2] * by];
};
/** The part of `a` square to the unit vector `n`, made unit. */
const square = (a: Triple, n: Triple): Triple => {
  const k = dot(a, n);
  return unit([a[0] - k * n[0], a[1] - k * n[1], a[2] - k * n[2]]);
};
const between = (a: Triple, b: Triple): number => Math.atan2(Math.hypot(...cross(a, b)), dot(a, b));

function angleOf(kind: FigureMeasure['kind'], p: Parts, up: Triple): number {
  if (kind === 'flexion') return between(at(p, U), at(p, L));
  if (kind === 'elevation') {
    // Down the chest as the joint rotations take it: along the trunk, square to the line of the shoulders.
    const y = square(at(p, S), unit(at(p, A)));
    return between(at(p, U), [-y[0], -y[1], -y[2]]);
  }
  const h = unit(at(p, H));
  if (kind === 'hipFlexion') {
    const y = square(at(p, S), h);
    return Math.atan2(dot(at(p, U), cross(h, y)), -dot(at(p, U), y));
  }
  return Math.atan2(dot(at(p, S), unit(cross(h, up))), dot(at(p, S), up));
}

/** The measure's angle in one frame, radians. */
export function measureAngle(figure: Figure, frame: number, measure: FigureMeasure): number {
  return angleOf(measure.kind, gather(figure, frame, measure), gravityOf(figure.globals[PITCH_AT]!, figure.globals[ROLL_AT]!).up);
}

/** Tells the open row the slope of `by` times the measure's angle. */
export function measureSlopes(rows: NormalEquations, figure: Figure, frame: number, measure: FigureMeasure, by: number): void {
  if (!rows.linear) return;
  const parts = gather(figure, frame, measure);
  const { up } = gravityOf(figure.globals[PITCH_AT]!, figure.globals[ROLL_AT]!);
  for (const part of PARTS_OF[measure.kind]) {
    const slope = [0, 1, 2].map((k) => {
      const here = parts[part + k]!;
      parts[part + k] = here + NUDGE;
      const above = angleOf(measure.kind, parts, up);
      parts[part + k] = here - NUDGE;
      const below = angleOf(measure.kind, parts, up);
      parts[part + k] = here;
      return (by * (above - below)) / (2 * NUDGE);
    }) as [number, number, number];
    if (part < U) rows.vector(frame, PART_AT[part]!, ...slope);
    else if (measure.kind !== 'lean') rows.direction(frame, measure.bone + (part === L ? 1 : 0), ...slope);
  }
  if (measure.kind !== 'lean') return;
  const { globals } = figure;
  for (const index of [PITCH_AT, ROLL_AT]) {
    const tilted = (nudge: number): number => {
      const tilt = (i: number): number => globals[i]! + (i === index ? nudge : 0);
      return angleOf('lean', parts, gravityOf(tilt(PITCH_AT), tilt(ROLL_AT)).up);
    };
    rows.global(index, (by * (tilted(NUDGE) - tilted(-NUDGE))) / (2 * NUDGE));
  }
}
const PART_AT: Readonly<Record<number, number>> = { [H]: HIP_AT, [S]: SPINE_AT, [A]: SHOULDER_AT };
