/**
 * The plain way, kept to check the fast one against (tests/motion/slowReference.test.ts); small objects instead of typed arrays.
 *
 * The axis about which an elbow or a knee bends, over a whole stretch, also where the limb is straight and shows none.
 *
 * A bent limb lies in a plane, and the axis is square to it. Near straight (and near fully folded) that plane is noise.
 * There the axis is carried over from the frames around, as far back as ahead: every frame's evidence is written as an
 * angle in a reference that moves with the upper bone by the smallest turn from frame to frame (parallel transport), so
 * that evidence of different frames can be added; it is weighted by how surely a frame shows its plane (sin²(flexion), and nothing near straight), and summed over time with {@link twoSidedSum}. Two faint voices decide where no frame near by says anything:
 * where this joint bends in everybody, and, as far as that cannot be told (an arm straight up), that the bone has not
 * turned about itself since it was last seen to bend. Where the limb is well bent, the frame's own plane is used and
 * nothing else.
 */
import { twoSidedSum } from '../../../src/numeric/twoSidedMean.ts';
import { cross, dot, reject, unit, type Vec3 } from '../../../src/numeric/vector3.ts';
import { rotate, shortestArc } from '../../../src/numeric/quaternion.ts';

/** Reach of evidence in time, seconds of the performer's time: about half of a quick bend and stretch. Our choice. */
const REACH_S = 0.15;

/** Reach of the evidence that speaks where there is no prior and nothing nearer. Our choice. */
const FAR_REACH_S = 2;

/** Weight of the prior: as much as a limb bent by 3° would have, were it believed: it speaks where nothing else does. Our choice. */
const PRIOR_WEIGHT = Math.sin((3 * Math.PI) / 180) ** 2;

/**
 * Flexions between which a frame's own plane gains trust. Landmarks of one camera show a straight limb bent by up
 * to 30°, in a plane that has nothing to do with the joint's (measured on the reference clips, see docs/accuracy.md), so
 * a bend of less than 25° is no evidence at all, and one of 45° is believed. Turning about the bone is what gains: without
 * this the hips of the clips are off by 34° (root mean square), with it by 19°.
 */
const LITTLE_RAD = (25 * Math.PI) / 180;
const ENOUGH_RAD = (45 * Math.PI) / 180;

/** One frame of a limb. */
export interface LimbFrame {
  /** Unit vector down the upper bone, stage axes. */
  readonly along: Vec3;
  /** sin(flexion) times the unit axis of positive body Z that the bend shows; square to `along`. */
  readonly bend: Vec3;
  /** Angle between the bones, 0 straight. */
  readonly flexionRad: number;
  /** Anatomical default of that axis, length 0..1, going to 0 where its own construction fails; need not be square to `along`. */
  readonly prior: Vec3;
}

/**
 * @param limb frames of one unbroken stretch
 * @param performerS their times
 * @returns for each frame the unit z axis of the upper segment, square to `along`
 */
export function slowHingeAxes(limb: readonly LimbFrame[], performerS: Float64Array): Vec3[] {
  const n = limb.length;
  const reference: Vec3[] = new Array<Vec3>(n);
  const evidence = new Float64Array(n * 2);
  const carried = new Float64Array(n * 2);
  const unsaid = new Float64Array(n);
  const trust = new Float64Array(n);
  let u = startReference(limb[0]!);
  for (let k = 0; k < n; k++) {
    const { along, bend, flexionRad, prior } = limb[k]!;
    if (k > 0) u = rotate(shortestArc(limb[k - 1]!.along, along), u);
    // rounding must not tilt the reference over thousands of frames
    u = unit(reject(u, along)) ?? startReference(limb[k]!);
    reference[k] = u;
    const v = cross(along, u);
    const bu = dot(bend, u);
    const bv = dot(bend, v);
    trust[k] = smoothStep((flexionRad - LITTLE_RAD) / (ENOUGH_RAD - LITTLE_RAD));
    const size = Math.sqrt(bu * bu + bv * bv) * trust[k]!;
    evidence[k * 2] = bu * size;
    evidence[k * 2 + 1] = bv * size;
    const px = dot(prior, u);
    const py = dot(prior, v);
    carried[k * 2] = evidence[k * 2]! + PRIOR_WEIGHT * px;
    carried[k * 2 + 1] = evidence[k * 2 + 1]! + PRIOR_WEIGHT * py;
    unsaid[k] = PRIOR_WEIGHT * Math.max(0, 1 - Math.sqrt(px * px + py * py));
  }
  const far = carried.slice();
  twoSidedSum(performerS, far, 2, 0, n - 1, FAR_REACH_S);
  for (let k = 0; k < n; k++) {
    const [x, y] = direction(far[k * 2]!, far[k * 2 + 1]!) ?? [0, 0];
    carried[k * 2]! += unsaid[k]! * x;
    carried[k * 2 + 1]! += unsaid[k]! * y;
  }
  twoSidedSum(performerS, carried, 2, 0, n - 1, REACH_S);
  return limb.map(({ along }, k) => {
    const own = direction(evidence[k * 2]!, evidence[k * 2 + 1]!);
    const around = direction(carried[k * 2]!, carried[k * 2 + 1]!) ?? own ?? [1, 0];
    const [c, s] = own === undefined ? around : blend(around, own, trust[k]!);
    const ref = reference[k]!;
    const side = cross(along, ref);
    return [c * ref[0] + s * side[0], c * ref[1] + s * side[1], c * ref[2] + s * side[2]];
  });
}

type Direction = readonly [number, number];

function direction(x: number, y: number): Direction | undefined {
  const size = Math.hypot(x, y);
  return size > 1e-200 ? [x / size, y / size] : undefined;
}

/** From a to b by the shorter way round, u = 0..1. */
function blend(a: Direction, b: Direction, u: number): Direction {
  if (u >= 1) return b;
  const turn = u * Math.atan2(a[0] * b[1] - a[1] * b[0], a[0] * b[0] + a[1] * b[1]);
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  return [a[0] * c - a[1] * s, a[0] * s + a[1] * c];
}

function smoothStep(u: number): number {
  const v = Math.min(1, Math.max(0, u));
  return v * v * (3 - 2 * v);
}

/** Any direction square to the bone will do as a reference; the prior is taken where it can be, so that nothing at all gives the default. */
function startReference(frame: LimbFrame): Vec3 {
  const { along, prior } = frame;
  return unit(reject(prior, along)) ?? unit(reject([0, 0, 1], along)) ?? unit(reject([1, 0, 0], along)) ?? [0, 0, 1];
}
