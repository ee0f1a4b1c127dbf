/** A small problem and a figure at which every family of residuals has something to say; two cameras, uneven times, all seeded. */
import { emptyFigure, settle, type Figure } from '../../../src/motion/fit/figure.ts';
import {
  BONE_COUNT, DEPTH_VECTORS, depthGainAt, elbowGainAt, FLOOR_AT, globalCount, LIMB_COUNT, LOG_LENGTH_AT, PITCH_AT, POINT_COUNT, ROLL_AT, TRUNK_LENGTH_AT,
} from '../../../src/motion/fit/layout.ts';
import { HABITS } from '../../../src/motion/fit/habits.ts';
import type { HandSet } from '../../../src/motion/fit/handSet.ts';
import type { Observations, Problem } from '../../../src/motion/fit/problem.ts';
import { evenNumbers } from './syntheticTake.ts';

/** @param said whether a person's word is in it too, whose rows are stiff */
export function randomProblem(frames: number, seed: number, said = false): { problem: Problem; figure: Figure } {
  const even = evenNumbers(seed);
  const about = (middle: number, spread: number): number => middle + (even() * 2 - 1) * spread;
  const figure = emptyFigure(frames, globalCount(2));
  for (let t = 0; t < frames; t++) {
    figure.free.set([about(0, 0.3), about(0, 0.3), about(4, 0.5)], t * 12);
    figure.free.set([about(0.09, 0.05), about(0, 0.05), about(0, 0.05)], t * 12 + 3);
    figure.free.set([about(0, 0.2), about(-0.5, 0.1), about(0, 0.2)], t * 12 + 6);
    figure.free.set([about(0.17, 0.05), about(0, 0.05), about(0, 0.05)], t * 12 + 9);
    for (let b = 0; b < BONE_COUNT; b++) {
      const d = [about(0, 1), about(0.3, 1), about(0, 1)];
      const size = Math.hypot(...d);
      figure.directions.set(d.map((v) => v / size), (t * BONE_COUNT + b) * 3);
      figure.slack[t * BONE_COUNT + b] = about(0, 0.1);
    }
  }
  const { globals } = figure;
  for (const [i, l] of [0.28, 0.25, 0.42, 0.41].entries()) globals[LOG_LENGTH_AT + i] = Math.log(l);
  globals.set([0.09, 0.5, 0.17], TRUNK_LENGTH_AT);
  globals[PITCH_AT] = 0.1;
  globals[ROLL_AT] = -0.05;
  globals[FLOOR_AT] = -0.9;
  const camera = (second: boolean): Observations => {
    const a = second ? 0.8 : 0;
    return {
      focalPx: second ? 900 : 1100, sigmaPx: 6, stepSigmaPx: 3,
      rotation: Float64Array.of(Math.cos(a), 0, Math.sin(a), 0, 1, 0, -Math.sin(a), 0, Math.cos(a)),
      translation: Float64Array.of(second ? -2.8 : 0, 0, second ? 1.2 : 0),
      image: Float64Array.from({ length: frames * POINT_COUNT * 2 }, () => about(0, 200)),
      weight: Float64Array.from({ length: frames * POINT_COUNT }, () => about(0.7, 0.3)), seen: new Float64Array(frames * POINT_COUNT).fill(1),
      depth: Float64Array.from({ length: frames * DEPTH_VECTORS }, () => about(0, 0.2)),
      depthSigmaM: Float64Array.from({ length: frames * DEPTH_VECTORS }, () => about(0.04, 0.02)), read: second ? randomReadings(frames, about) : null,
      depthWeight: Float64Array.from({ length: frames * DEPTH_VECTORS }, () => about(0.7, 0.3)),
      elbowRad: Float64Array.from({ length: frames * 2 }, () => about(0.8, 0.7)),
    };
  };
  for (let c = 0; c < 2; c++) {
    globals[elbowGainAt(c)] = 0.6;
    for (let v = 0; v < DEPTH_VECTORS; v++) globals[depthGainAt(c, v)] = about(0.6, 0.1);
  }
  settle(figure);
  let now = 0;
  const timesS = Float64Array.from({ length: frames }, () => (now += about(0.04, 0.02)));
  const problem: Problem = {
    habits: HABITS.full, frames, timesS, spanS: new Float64Array(frames).fill(0.04), evidence: Float64Array.from({ length: frames }, () => about(0.4, 0.2)),
    cameras: [camera(false), camera(true)], standing: new Float64Array(frames * 2).fill(1), planted: new Float64Array(frames * 2).fill(1).map((v, i) => (i % 5 === 4 ? 0 : v)),
    logLengths: Float64Array.from([0.29, 0.24, 0.43, 0.42], Math.log), trunkM: Float64Array.of(0.1, 0.52, 0.16),
    pitch: { meanRad: 0, sigmaRad: 0.07 }, roll: { meanRad: 0, sigmaRad: 0.03 }, useSteps: true, looseness: { arms: 1.5, legs: 2, hips: 0.8 }, handSet: said ? randomHandSet(about) : null,
  };
  return { problem, figure };
}

/** One row of every kind, none just at its limit. */
function randomHandSet(about: (middle: number, spread: number) => number): HandSet {
  return {
    places: [{ frame: 1, point: 4, x: about(0, 200), y: about(0, 200), sigmaPx: 2 }],
    angles: [
      { frame: 0, measure: { kind: 'flexion', bone: 2 }, angleRad: 1, sigmaRad: 0.1 },
      { frame: 1, measure: { kind: 'elevation', bone: 0 }, angleRad: 0.4, sigmaRad: 0.1 },
      { frame: 2, measure: { kind: 'hipFlexion', bone: 6 }, angleRad: 0.2, sigmaRad: 0.1 },
      { frame: 3, measure: { kind: 'lean' }, angleRad: 0.1, sigmaRad: 0.1 },
    ],
    signs: [{ frame: 2, bone: 3, ray: [0.1, 0, 0.99], sign: 1, least: 2 }],
    pins: [{ frame: 3, free: new Float64Array(12).map(() => about(0, 0.3)), directions: new Float64Array(24).map(() => about(0, 0.3)), sigmas: new Float64Array(20).map((_, i) => (i === 5 ? Infinity : 0.1)) }],
    firm: [1],
  };
}

/** The second camera has a reader. */
function randomReadings(frames: number, about: (middle: number, spread: number) => number): Observations['read'] {
  const fill = (width: number, middle: number, spread: number): Float64Array => Float64Array.from({ length: frames * width }, () => about(middle, spread));
  return { lean: fill(DEPTH_VECTORS, 0, 0.5), leanSigma: fill(DEPTH_VECTORS, 0.2, 0.1), bendRad: fill(LIMB_COUNT, 0.8, 0.7), bendSigmaRad: fill(LIMB_COUNT, 0.3, 0.1) };
}
