/**
 * The whole chain on made-up takes: detector, fit, smoothing, joint rotations. What a move keeps of its size and moment, how a
 * hold trembles, and that straight limbs do not flip. The smoothing alone is held in tests/motion/smoothingTargets.test.ts.
 *
 * Seen from its side (80°), as the fit follows a move best where the picture shows it. Of the detector's faults the squeezed depth
 * and the bent middles are on; slow drift and jitter, which move an extreme by chance, are left out where moments are told.
 */
import { describe, expect, it } from 'vitest';
import { fitUnread } from './unread.ts';
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { JOINT, JOINT_COUNT, type JointName } from '../../../src/motion/joints.ts';
import { trackToMotion } from '../../../src/motion/trackToMotion.ts';
import { angleOf, readQuat } from '../../../src/numeric/quaternion.ts';
import { DEFAULT_SETTINGS } from '../../../src/plan/settings.ts';
import type { Track } from '../../../src/pose/track.ts';
import { largestStepDeg } from './moves.ts';
import { FAULTS, film, FRONT, NO_FAULTS, stand, STANDING, times, type Faults, type SyntheticCamera, type SyntheticPose } from './syntheticTake.ts';

const FPS = 30;
const DEG = Math.PI / 180;
/** So that extremes lie between frames. */
const PHASE = 0.37;
const SIDE = { ...FRONT, azimuthDeg: 80 };
const CLEAN: Faults = { ...FAULTS, jitterPx: 0, biasPx: 0, depthNoiseM: 0 };
/** Frames at both ends that are not judged. */
const MARGIN = 20;

interface Fitted { readonly track: Track; readonly body: FittedBody }

function fitted(seconds: number, poseAt: (t: number) => SyntheticPose, camera: SyntheticCamera, faults: Faults): Fitted {
  const { track } = film(times(seconds, FPS), poseAt, camera, faults);
  return { track, body: fitUnread(track, 1) };
}

/** How far each joint is turned from rest, degrees; of a hinge its flexion. */
function turns({ track, body }: Fitted, joints: readonly JointName[], settings = DEFAULT_SETTINGS): Float64Array[] {
  const { rotations } = trackToMotion(track, settings, body);
  expect(rotations.every(Number.isFinite)).toBe(true);
  return joints.map((joint) => Float64Array.from(track.timesS, (_, t) => angleOf(readQuat(rotations, t * JOINT_COUNT + JOINT[joint])) / DEG));
}

/** Both elbows swing about 60°: the left by ±`small`, the right by ±`large` degrees. */
const swinging = (hz: number, small: number, large: number) => (t: number): SyntheticPose => {
  const swing = Math.cos(2 * Math.PI * hz * t - PHASE);
  const arm = (halfDeg: number): SyntheticPose['arms'][number] => ({ forward: 20, sideways: 8, elbow: 60 + halfDeg * swing });
  return stand({ ...STANDING, arms: [arm(small), arm(large)] });
};

/** Size, and lateness in seconds, of the sine of a known frequency, over whole periods. */
function sineIn(curve: Float64Array, hz: number): { sizeDeg: number; lateS: number } {
  const count = Math.floor((curve.length - 2 * MARGIN) / (FPS / hz)) * (FPS / hz);
  const part = curve.subarray(MARGIN, MARGIN + count);
  const mean = part.reduce((sum, v) => sum + v, 0) / count;
  let c = 0;
  let s = 0;
  part.forEach((v, i) => {
    const angle = (2 * Math.PI * hz * (MARGIN + i)) / FPS - PHASE;
    c += (v - mean) * Math.cos(angle);
    s += (v - mean) * Math.sin(angle);
  });
  return { sizeDeg: (2 * Math.hypot(c, s)) / count, lateS: Math.atan2(s, c) / (2 * Math.PI * hz) };
}

/** Frames between a true extreme and the vertex of a parabola a sixth of a period wide; the worst of all. */
function extremeOffFrames(curve: Float64Array, hz: number): number {
  const wide = Math.max(1, Math.round(FPS / hz / 12));
  let worst = 0;
  for (let half = 1; ; half++) {
    const truth = ((half * Math.PI + PHASE) / (2 * Math.PI * hz)) * FPS;
    if (truth < MARGIN) continue;
    if (truth > curve.length - MARGIN) return worst;
    const sign = half % 2 === 0 ? 1 : -1;
    let k = Math.round(truth) - 3;
    for (let i = k; i <= Math.round(truth) + 3; i++) if (sign * curve[i]! > sign * curve[k]!) k = i;
    const [a, b, c] = [curve[k - wide]!, curve[k]!, curve[k + wide]!];
    worst = Math.max(worst, Math.abs(k + (wide * (a - c)) / (2 * (a - 2 * b + c)) - truth));
  }
}

describe('a move through the whole chain', { timeout: 60_000 }, () => {
  it.each([[0.5, 0.99], [1, 0.99], [2, 0.98]] as const)('%d Hz, ±2° and ±20°: in time, and nearly whole', (hz, least) => {
    const halves = [2, 20] as const;
    const curves = turns(fitted(hz < 1 ? 6 : 4, swinging(hz, ...halves), SIDE, CLEAN), ['leftElbow', 'rightElbow']);
    curves.forEach((curve, i) => {
      const { sizeDeg, lateS } = sineIn(curve, hz);
      const gain = sizeDeg / halves[i]!;
      const off = extremeOffFrames(curve, hz);
      console.info(`elbow ±${halves[i]}° at ${hz} Hz, fitted and smoothed: gain ${gain.toFixed(3)}, lag ${(1000 * lateS).toFixed(2)} ms, extremes off by ${off.toFixed(3)} frames`);
      expect(gain).toBeGreaterThan(least);
      // The small elbow is near ±2 of 60: the static error of a bone's length shows, 7 %.
      expect(gain).toBeLessThan(1.1);
      // A hundredth of a frame; asked for are none and a quarter frame.
      expect(Math.abs(lateS)).toBeLessThan(0.0003);
      expect(off).toBeLessThan(0.05);
    });
  });
});

describe('a hold through the whole chain', { timeout: 60_000 }, () => {
  const JOINTS = ['leftElbow', 'rightElbow', 'leftKnee', 'rightKnee', 'leftShoulder', 'rightShoulder', 'leftHip', 'rightHip'] as const;
  const limb = { forward: 20, sideways: 8 };
  const held = stand({ ...STANDING, arms: [{ ...limb, elbow: 60 }, { ...limb, elbow: 60 }], legs: [{ ...limb, sideways: 0, knee: 40 }, { ...limb, sideways: 0, knee: 40 }] });
  /** RMS of the second difference over √6: of white noise its own RMS. */
  const jitter = (curve: Float64Array): number => {
    let sum = 0;
    for (let k = MARGIN; k < curve.length - MARGIN; k++) sum += (curve[k + 1]! - 2 * curve[k]! + curve[k - 1]!) ** 2;
    return Math.sqrt(sum / (curve.length - 2 * MARGIN) / 6);
  };
  const words = (values: readonly number[]): string => JOINTS.map((name, j) => `${name} ${values[j]!.toFixed(3)}°`).join(', ');

  // 0.4 px makes an elbow tremble by half a degree in single frames, as was measured on rendered figures; 1.5 px by 1.6 to 1.9°.
  // Asked for are 0.05°, reached with the former, by the hips too, whose line points at the lens here and trembles most.
  it.each([[0.4, 0.05], [1.5, 0.16]] as const)('jitter of %d px in the picture leaves at most %d°', (jitterPx, most) => {
    const take = fitted(4, () => held, SIDE, { ...FAULTS, jitterPx });
    const smoothed = turns(take, JOINTS).map(jitter);
    const rough = turns(take, JOINTS, { ...DEFAULT_SETTINGS, cutoffHz: 0 }).map(jitter);
    console.info(`hold, ${jitterPx} px: unsmoothed ${words(rough)}; default ${words(smoothed)}`);
    for (const [j, v] of smoothed.entries()) expect(v, JOINTS[j]).toBeLessThan(most);
  });
});

describe('limbs that pass through straight', { timeout: 60_000 }, () => {
  const LIMBS = ['leftShoulder', 'leftElbow', 'rightShoulder', 'rightElbow', 'leftHip', 'leftKnee', 'rightHip', 'rightKnee'] as const;
  const bend = (t: number): number => 60 * Math.max(0, (0.4 + Math.cos((2 * Math.PI * t) / 1.5)) / 1.4) ** 2;
  const poseAt = (t: number): SyntheticPose => {
    const leg = { forward: bend(t) / 2, sideways: 0, knee: bend(t) };
    return stand({ ...STANDING, arms: [{ forward: 30, sideways: 40, elbow: bend(t) }, { forward: 0, sideways: 8, elbow: bend(t) }], legs: [leg, leg] });
  };

  /** No joint of this move truly turns faster, degrees a frame: so that a flip in the truth's own reading shows too. */
  const QUICKEST_DEG = 8;

  it.each([0, 40])('do not flip, seen from %d°, with all faults', (azimuthDeg) => {
    const camera = { ...FRONT, azimuthDeg };
    const steps = (track: Track, body: FittedBody | null, cutoffHz: number): number[] => {
      const motion = trackToMotion(track, { ...DEFAULT_SETTINGS, cutoffHz }, body);
      return LIMBS.map((joint) => largestStepDeg(motion, JOINT[joint]));
    };
    const truth = steps(film(times(3, FPS), poseAt, camera, NO_FAULTS).track, null, 0);
    const { track, body } = fitted(3, poseAt, camera, FAULTS);
    const rough = steps(track, body, 0);
    const smooth = steps(track, body, DEFAULT_SETTINGS.cutoffHz);
    console.info(`from ${azimuthDeg}°, largest turn from frame to frame, true / fitted / smoothed: ${LIMBS.map((name, j) => `${name} ${truth[j]!.toFixed(1)} / ${rough[j]!.toFixed(1)} / ${smooth[j]!.toFixed(1)}°`).join(', ')}`);
    for (const [j, name] of LIMBS.entries()) {
      // A flip is 180°. Jitter of the bone's turn about itself is left near straight, before smoothing.
      expect(rough[j], name).toBeLessThan(Math.min(QUICKEST_DEG, truth[j]!) + 14);
      expect(smooth[j], name).toBeLessThan(Math.min(QUICKEST_DEG, truth[j]!) + 7);
    }
  });
});
