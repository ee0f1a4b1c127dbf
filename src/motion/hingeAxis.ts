/**
 * The axis about which an elbow or a knee bends, over a whole stretch, also where the limb is straight and shows none.
 *
 * A bent limb lies in a plane, and the axis is square to it. Near straight (and near fully folded) that plane is noise.
 * There the axis is carried over from the frames around, as far back as ahead: every frame's evidence is written as an
 * angle in a reference that moves with the upper bone by the smallest turn from frame to frame (parallel transport), so
 * that evidence of different frames can be added; it is weighted by how surely a frame shows its plane (sin²(flexion), and nothing near straight), and summed over time with
 * {@link twoSidedSum}. Two faint voices decide where no frame near by says anything: where this joint bends in everybody, and, as far as that cannot be told (an arm straight up), that the bone has not
 * turned about itself since it was last seen to bend. Where the limb is well bent, the frame's own plane is used and
 * nothing else.
 */
import { carryAt, crossAt, dotAt, squareUnitAt } from '../numeric/inPlace.ts';
import { twoSidedSum } from '../numeric/twoSidedMean.ts';

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

/** A limb over the n frames of one unbroken stretch; frame k's vectors start at 3·k. */
export interface LimbRun {
  /** `[n·3]` unit vectors down the upper bone, stage axes. */
  readonly along: Float64Array;
  /** `[n·3]` sin(flexion) times the unit axis of positive body Z that the bend shows; square to `along`. */
  readonly bend: Float64Array;
  /** `[n]` angle between the bones, 0 straight. */
  readonly flexionRad: Float64Array;
  /** `[n·3]` anatomical default of that axis, length 0..1, going to 0 where its own construction fails; need not be square to `along`. */
  readonly prior: Float64Array;
}

/**
 * @param performerS n times
 * @returns `[n·3]` for each frame the unit z axis of the upper segment, square to `along`
 */
export function hingeAxes(limb: LimbRun, performerS: Float64Array): Float64Array {
  const { along, bend, flexionRad, prior } = limb;
  const n = performerS.length;
  /** u (at 6·k) and v (at 6·k + 3) of the frame that the evidence is told in; both square to the bone. */
  const frame = new Float64Array(n * 6);
  const evidence = new Float64Array(n * 2);
  const carried = new Float64Array(n * 2);
  const unsaid = new Float64Array(n);
  const trust = new Float64Array(n);
  for (let k = 0; k < n; k++) {
    const b = k * 3;
    const u = k * 6;
    const v = u + 3;
    // a bone that turns right over in one frame leaves the reference where it was: still square to it
    if (k > 0 && !carryAt(along, b - 3, along, b, frame, u - 6, frame, u)) frame.copyWithin(u, u - 6, u - 3);
    // rounding must not tilt the reference over thousands of frames
    if (k === 0 || !squareUnitAt(frame, u, along, b, frame, u)) startReference(prior, b, along, frame, u);
    crossAt(along, b, frame, u, frame, v);
    const bu = dotAt(bend, b, frame, u);
    const bv = dotAt(bend, b, frame, v);
    trust[k] = smoothStep((flexionRad[k]! - LITTLE_RAD) / (ENOUGH_RAD - LITTLE_RAD));
    const size = Math.sqrt(bu * bu + bv * bv) * trust[k]!;
    evidence[k * 2] = bu * size;
    evidence[k * 2 + 1] = bv * size;
    const px = dotAt(prior, b, frame, u);
    const py = dotAt(prior, b, frame, v);
    carried[k * 2] = evidence[k * 2]! + PRIOR_WEIGHT * px;
    carried[k * 2 + 1] = evidence[k * 2 + 1]! + PRIOR_WEIGHT * py;
    unsaid[k] = PRIOR_WEIGHT * Math.max(0, 1 - Math.sqrt(px * px + py * py));
  }
  const far = carried.slice();
  twoSidedSum(performerS, far, 2, 0, n - 1, FAR_REACH_S);
  for (let k = 0; k < n; k++) {
    const x = far[k * 2]!;
    const y = far[k * 2 + 1]!;
    const size = Math.sqrt(x * x + y * y);
    if (!(size > NOTHING)) continue;
    carried[k * 2]! += (unsaid[k]! * x) / size;
    carried[k * 2 + 1]! += (unsaid[k]! * y) / size;
  }
  twoSidedSum(performerS, carried, 2, 0, n - 1, REACH_S);
  const axes = new Float64Array(n * 3);
  for (let k = 0; k < n; k++) {
    const turn = chosenTurn(evidence, carried, k * 2, trust[k]!);
    const c = Math.cos(turn);
    const s = Math.sin(turn);
    for (let i = 0; i < 3; i++) axes[k * 3 + i] = c * frame[k * 6 + i]! + s * frame[k * 6 + 3 + i]!;
  }
  return axes;
}

/** Shortest sum of evidence that still has a direction. */
const NOTHING = 1e-150;

/** Turn of the axis from u toward v: that of the frames around, led toward the frame's own by how far it is trusted. */
function chosenTurn(own: Float64Array, around: Float64Array, at: number, trust: number): number {
  const ox = own[at]!;
  const oy = own[at + 1]!;
  const saysOwn = ox * ox + oy * oy > NOTHING * NOTHING;
  if (saysOwn && trust >= 1) return Math.atan2(oy, ox);
  const ax = around[at]!;
  const ay = around[at + 1]!;
  if (!(ax * ax + ay * ay > NOTHING * NOTHING)) return saysOwn ? Math.atan2(oy, ox) : 0;
  const turn = Math.atan2(ay, ax);
  return saysOwn ? turn + trust * Math.atan2(ax * oy - ay * ox, ax * ox + ay * oy) : turn;
}

function smoothStep(u: number): number {
  const v = Math.min(1, Math.max(0, u));
  return v * v * (3 - 2 * v);
}

const AXES = new Float64Array([0, 0, 1, 1, 0, 0]);

/** Any direction square to the bone will do as a reference; the prior is taken where it can be, so that nothing at all gives the default. */
function startReference(prior: Float64Array, bone: number, along: Float64Array, to: Float64Array, at: number): void {
  if (squareUnitAt(prior, bone, along, bone, to, at) || squareUnitAt(AXES, 0, along, bone, to, at)) return;
  if (!squareUnitAt(AXES, 3, along, bone, to, at)) to.set([0, 0, 1], at);
}
