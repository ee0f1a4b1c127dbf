/**
 * Lag: the moment of the extreme in the smoothed knee curve against the truth, within a quarter of a frame. The moment is
 * the vertex of the parabola through the largest value and two values a twelfth of a period to its sides.
 *
 * With landmark noise a single extreme also moves by chance: near an extreme the curve is flat, so a little noise shifts
 * its top far. The lag is therefore the mean over many extremes and seeds; chance shrinks in it, a lag would not.
 */
import { describe, expect, it } from 'vitest';
import { JOINT, JOINT_COUNT } from '../../src/motion/joints.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { twistAngle, readQuat } from '../../src/numeric/quaternion.ts';
import { evenTimes, trackOf, turnZ, type FigurePose } from './figure.ts';

const FPS = 30;

function kneeCurve(flexionAt: (timeS: number) => number, frames: number, cutoffHz: number, noiseM: number, seed: number): Float64Array {
  const times = evenTimes(frames, FPS);
  const poses = [...times].map((t): FigurePose => ({ leftKnee: flexionAt(t), leftHip: turnZ(flexionAt(t) / 2), rightKnee: 0.6, leftElbow: 1, rightElbow: 1 }));
  const { rotations } = trackToMotion(trackOf(poses, times, { noiseM, seed }), { captureFactor: 1, mirror: false, cutoffHz });
  return Float64Array.from({ length: frames }, (_, t) => -twistAngle(readQuat(rotations, t * JOINT_COUNT + JOINT.leftKnee), 3));
}

/** Frame (with fraction) of the largest value within `reach` frames of a frame; the parabola's points lie `apart` frames apart. */
function extremeNear(curve: Float64Array, frame: number, reach: number, sign: 1 | -1, apart: number): number {
  let k = Math.round(frame);
  for (let i = Math.ceil(frame - reach); i <= frame + reach; i++) if (sign * curve[i]! > sign * curve[k]!) k = i;
  const [a, b, c] = [curve[k - apart]!, curve[k]!, curve[k + apart]!];
  return k + (apart * (a - c)) / (2 * (a - 2 * b + c));
}

describe('sinusoidal knee', () => {
  for (const [hz, cutoffs] of [[0.5, [4, 6]], [1, [3, 6, 8]], [2, [4, 6, 10]], [3, [6, 10]]] as const) {
    for (const cutoffHz of cutoffs) {
      it(`${hz} Hz, cut-off ${cutoffHz} Hz`, () => {
        // phase such that extremes lie between frames
        const phase = 0.37;
        const frames = Math.round((8 / hz) * FPS);
        const flexion = (t: number): number => 0.9 + 0.5 * Math.cos(2 * Math.PI * hz * t - phase);
        const lags: number[] = [];
        let worstClean = 0;
        for (let seed = 0; seed <= 8; seed++) {
          const curve = kneeCurve(flexion, frames, cutoffHz, seed === 0 ? 0 : 0.003, seed);
          for (let half = 2; half <= 13; half++) {
            const truth = ((half * Math.PI + phase) / (2 * Math.PI * hz)) * FPS;
            const lag = extremeNear(curve, truth, FPS / hz / 4, half % 2 === 0 ? 1 : -1, Math.max(1, Math.round(FPS / hz / 12))) - truth;
            if (seed === 0) worstClean = Math.max(worstClean, Math.abs(lag));
            else lags.push(lag);
          }
        }
        const mean = lags.reduce((sum, lag) => sum + lag, 0) / lags.length;
        // without noise only the parabola's own error is left
        expect(worstClean).toBeLessThan(0.05);
        expect(Math.abs(mean)).toBeLessThan(0.25);
      });
    }
  }
});

describe('minimum-jerk bend and stretch', () => {
  // Flash & Hogan 1985, J. Neurosci. 5:1688-1703
  const minimumJerk = (u: number): number => (u <= 0 ? 0 : u >= 1 ? 1 : u ** 3 * (10 - 15 * u + 6 * u * u));

  it.each([[0.35, 6], [0.5, 6], [0.5, 4], [0.8, 3]])('%d s each way, cut-off %d Hz', (durationS, cutoffHz) => {
    const top = 1.512;
    const flexion = (t: number): number => 0.3 + 1.1 * (minimumJerk((t - (top - durationS)) / durationS) - minimumJerk((t - top) / durationS));
    const clean = kneeCurve(flexion, 90, cutoffHz, 0, 0);
    // a parabola over four frames is not quite the top of a move of 0.35 s
    expect(Math.abs(extremeNear(clean, top * FPS, 8, 1, 2) - top * FPS)).toBeLessThan(0.1);
    let sum = 0;
    for (let seed = 1; seed <= 20; seed++) sum += extremeNear(kneeCurve(flexion, 90, cutoffHz, 0.003, seed), top * FPS, 8, 1, 2) - top * FPS;
    expect(Math.abs(sum / 20)).toBeLessThan(0.25);
  });
});

describe('the ends of a take', () => {
  it('do not swing: a move that runs into the end stays on its line', () => {
    const flexion = (t: number): number => 0.5 + 0.3 * t;
    const curve = kneeCurve(flexion, 60, 6, 0, 0);
    // the angle of points that move along arcs is not quite a straight line for the filter: 0.1°
    curve.forEach((value, t) => expect(Math.abs(value - flexion(t / FPS)), `frame ${t}`).toBeLessThan(0.002));
  });
});
