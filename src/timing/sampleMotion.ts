/**
 * The motion at any moments: smooth between frames, exact on them.
 *
 * Balls: squad with shape-keeping speeds (`numeric/quaternionSeries.ts`); plain slerp would change direction abruptly at
 * every frame, which at 5 frames a second shows as a kink in each extreme. Hinges: PCHIP on the flexion, which is the
 * same curve for a turn about one axis. Neither swings beyond an extreme or out of a hold. Both are invariant to the
 * clock's unit, so container time serves as it is.
 */
import { readQuat, writeQuat } from '../numeric/quaternion.ts';
import { alongSquad, makeSignsContinuous, SQUAD_PIECE, writeSquadPiece } from '../numeric/quaternionSeries.ts';
import { hermite, pchipEndSlope, pchipInnerSlope } from '../numeric/pchip.ts';
import { JOINT, JOINT_COUNT, JOINT_NAMES, PERFORMER_KIND } from '../motion/joints.ts';
import { STATE_MISSING, type Motion } from '../motion/motion.ts';
import type { Poses } from './poses.ts';

/** A moment this near to a frame is that frame: container times are rounded to their ticks, film times to the last digit. */
const ON_FRAME_S = 1e-6;

/**
 * Poses at the given moments.
 *
 * State of a sample: the worse of the two frames around it (missing is worse than bridged, bridged worse than measured);
 * on a frame, that frame's own. Confidence: the smaller of the two. Errors: the larger; doubts: those of both. Missing samples are NaN. Moments outside the take hold
 * its first or last frame.
 *
 * @param atS N rising container times
 */
export function sampleMotion(motion: Motion, atS: Float64Array): Poses {
  const count = atS.length;
  const { timesS } = motion;
  const frames = timesS.length;
  const rotations = new Float64Array(count * JOINT_COUNT * 4).fill(Number.NaN);
  const rootM = new Float64Array(count * 3).fill(Number.NaN);
  const confidence = new Float32Array(count * JOINT_COUNT);
  const state = new Uint8Array(count * JOINT_COUNT).fill(STATE_MISSING);
  const errorDeg = new Float32Array(count * JOINT_COUNT).fill(Number.NaN);
  const turnErrorDeg = errorDeg.slice();
  const unsure = new Uint8Array(count * JOINT_COUNT);
  const contacts = new Uint8Array(count * 2);
  const { hinge, runs, pieces } = curvesOf(motion);

  let k = 0;
  for (let s = 0; s < count; s++) {
    const at = atS[s]!;
    while (k + 1 < frames - 1 && timesS[k + 1]! <= at) k++;
    const { low, high, u } = place(timesS, k, at);
    for (let j = 0; j < JOINT_COUNT; j++) {
      const a = low * JOINT_COUNT + j;
      const b = high * JOINT_COUNT + j;
      const out = s * JOINT_COUNT + j;
      const worst = Math.max(motion.state[a]!, motion.state[b]!);
      if (worst === STATE_MISSING) continue;
      state[out] = worst;
      confidence[out] = Math.min(motion.confidence[a]!, motion.confidence[b]!);
      errorDeg[out] = Math.max(motion.errorDeg[a]!, motion.errorDeg[b]!);
      turnErrorDeg[out] = Math.max(motion.turnErrorDeg[a]!, motion.turnErrorDeg[b]!);
      unsure[out] = motion.unsure[a]! | motion.unsure[b]!;
      if (low === high) {
        writeQuat(rotations, out, readQuat(motion.rotations, a));
        continue;
      }
      const from = runs.from[a]!;
      const to = runs.to[a]!;
      const angles = hinge[j];
      if (angles !== undefined) {
        const half = cubic(timesS, angles, 1, 0, from, to, low, u) / 2;
        writeQuat(rotations, out, [Math.cos(half), 0, 0, Math.sin(half)]);
      } else if (motion.observable[j] === 1) {
        if (Number.isNaN(pieces[a * SQUAD_PIECE]!)) {
          writeSquadPiece({ timesS, values: motion.rotations, stride: JOINT_COUNT * 4, offset: j * 4, from, to }, low, pieces, a);
        }
        alongSquad(motion.rotations, a * 4, pieces, a, timesS[high]! - timesS[low]!, u, rotations, out * 4);
      } else {
        writeQuat(rotations, out, readQuat(motion.rotations, a));
      }
    }
    // a foot stands between two frames when it does in both
    for (let foot = 0; foot < 2; foot++) contacts[s * 2 + foot] = motion.contacts[low * 2 + foot]! & motion.contacts[high * 2 + foot]!;
    // the root path is known where the pelvis is
    const pelvis = low * JOINT_COUNT + JOINT.pelvis;
    for (let c = 0; c < 3; c++) {
      rootM[s * 3 + c] = low === high
        ? motion.rootM[low * 3 + c]!
        : cubic(timesS, motion.rootM, 3, c, runs.from[pelvis]!, runs.to[pelvis]!, low, u);
    }
  }
  makeSignsContinuous(rotations, count, JOINT_COUNT);
  return { timesS: atS, rotations, rootM, contacts, confidence, state, errorDeg, turnErrorDeg, unsure };
}

/** What follows from the motion alone and is wanted again at every other timing; `pieces[T·J·SQUAD_PIECE]` are made as they are met, NaN until then. */
interface Curves {
  readonly hinge: readonly (Float64Array | undefined)[];
  readonly runs: { readonly from: Int32Array; readonly to: Int32Array };
  readonly pieces: Float64Array;
}

const known = new WeakMap<Motion, Curves>();

function curvesOf(motion: Motion): Curves {
  let curves = known.get(motion);
  if (curves === undefined) {
    curves = { hinge: hingeAngles(motion), runs: knownRuns(motion), pieces: new Float64Array(motion.state.length * SQUAD_PIECE).fill(Number.NaN) };
    known.set(motion, curves);
  }
  return curves;
}

/** The frames on both sides of a moment and where between them it lies; the same frame twice when it is on one. */
function place(timesS: Float64Array, k: number, at: number): { low: number; high: number; u: number } {
  const last = timesS.length - 1;
  if (at <= timesS[0]! + ON_FRAME_S || last === 0) return { low: 0, high: 0, u: 0 };
  if (at >= timesS[last]! - ON_FRAME_S) return { low: last, high: last, u: 0 };
  if (at - timesS[k]! <= ON_FRAME_S) return { low: k, high: k, u: 0 };
  if (timesS[k + 1]! - at <= ON_FRAME_S) return { low: k + 1, high: k + 1, u: 0 };
  return { low: k, high: k + 1, u: (at - timesS[k]!) / (timesS[k + 1]! - timesS[k]!) };
}

/** Turn about Z of every performer's hinge at every frame `[T]`, radians; `undefined` for the other joints. */
function hingeAngles(motion: Motion): readonly (Float64Array | undefined)[] {
  return JOINT_NAMES.map((name, j) => {
    if (PERFORMER_KIND[name] !== 'hinge') return undefined;
    const angles = new Float64Array(motion.timesS.length);
    for (let t = 0; t < angles.length; t++) {
      const q = readQuat(motion.rotations, t * JOINT_COUNT + j);
      // a hinge stays within half a turn of straight, whichever sign its quaternion has
      angles[t] = q[0] < 0 ? 2 * Math.atan2(-q[3], -q[0]) : 2 * Math.atan2(q[3], q[0]);
    }
    return angles;
  });
}

/** For each frame and joint `[T·J]` the first and last frame of the unbroken run in which that joint is known. */
function knownRuns(motion: Motion): { from: Int32Array; to: Int32Array } {
  const n = motion.state.length;
  const from = new Int32Array(n);
  const to = new Int32Array(n);
  const known = (k: number): boolean => k >= 0 && k < n && motion.state[k] !== STATE_MISSING;
  for (let k = 0; k < n; k++) {
    from[k] = known(k) && known(k - JOINT_COUNT) ? from[k - JOINT_COUNT]! : Math.floor(k / JOINT_COUNT);
  }
  for (let k = n - 1; k >= 0; k--) {
    to[k] = known(k) && known(k + JOINT_COUNT) ? to[k + JOINT_COUNT]! : Math.floor(k / JOINT_COUNT);
  }
  return { from, to };
}

/** PCHIP between frames k and k + 1 of a run from..to, without making the slopes of all the others. */
function cubic(
  x: Float64Array, y: Float64Array, stride: number, offset: number, from: number, to: number, k: number, u: number,
): number {
  const h = x[k + 1]! - x[k]!;
  const at = k * stride + offset;
  const d = (y[at + stride]! - y[at]!) / h;
  const hasBefore = k > from;
  const hasAfter = k + 1 < to;
  const hBefore = hasBefore ? x[k]! - x[k - 1]! : 0;
  const before = hasBefore ? (y[at]! - y[at - stride]!) / hBefore : 0;
  const hAfter = hasAfter ? x[k + 2]! - x[k + 1]! : 0;
  const after = hasAfter ? (y[at + 2 * stride]! - y[at + stride]!) / hAfter : 0;
  let m0 = d;
  let m1 = d;
  if (hasBefore) m0 = pchipInnerSlope(hBefore, h, before, d);
  else if (hasAfter) m0 = pchipEndSlope(h, hAfter, d, after);
  if (hasAfter) m1 = pchipInnerSlope(h, hAfter, d, after);
  else if (hasBefore) m1 = pchipEndSlope(h, hBefore, d, before);
  return hermite(h, u, y[at]!, y[at + stride]!, m0, m1);
}
