/**
 * The whole-take body fit: a figure whose bones keep their lengths, laid over image and world landmarks together.
 *
 * First at knots some 10 a second, where the detector's slow errors are fought (they stay alike for a quarter of a second, so
 * more knots would know no more), with the take's unknowns in the border; then at every frame with those held, following
 * quick moves by the landmarks' steps from frame to frame. docs/method-fit.md has every formula.
 */
import { NudgebookError } from '../../errors.ts';
import { slateRows } from '../corrections/slate.ts';
import { foundCount, type Track } from '../../pose/track.ts';
import { measureLengths, type BodyLengths } from './bodyLengths.ts';
import { focalLengthPx } from './camera.ts';
import { cameraSigma, NO_CAMERA_SIGMA } from './cameraSigma.ts';
import { ERROR_MEMORY_S, GIVEN_ANGLE_SIGMA_RAD, PITCH_SIGMA_RAD, ROLL_SIGMA_RAD } from './constants.ts';
import type { ContactOverride } from './contacts.ts';
import { withoutHabits } from './debias.ts';
import { emptyFigure, settle, type Figure } from './figure.ts';
import type { FittedBody, SlateSpans } from './fittedBody.ts';
import { NOTHING_SAID } from './handSet.ts';
import { afterReading, HABITS, type Habits } from './habits.ts';
import { POINT_COUNT } from './layout.ts';
import { withoutJumps } from './jumps.ts';
import { NormalEquations } from './normalEquations.ts';
import { observe } from './observations.ts';
import { placeRoot } from './place.ts';
import type { AnglePrior, Looseness, Observations, Problem } from './problem.ts';
import type { Readings } from './reader/readTrack.ts';
import { withReading } from './reader/withReading.ts';
import type { FamilyName } from './residuals/all.ts';
import { fillHoles, interpolate, quantile } from './series.ts';
import { fittedStands, rawStands, type Stands } from './soles.ts';
import { solve, type SolveLimits } from './solve.ts';
import { leastTrunk, rawDepths, rawTrunk, startLimbs, startTrunk } from './start.ts';
import type { View } from './view.ts';
import { bodyOf, type WholeFit } from './wholeFit.ts';

/** A further camera on the same take: its track at the first track's times, and where it stands. */
export interface FurtherCamera {
  readonly track: Track;
  /** Row-major rotation [9] and translation [3] in metres: point in this camera = rotation · point in the first + translation. */
  readonly rotation: ArrayLike<number>;
  readonly translationM: ArrayLike<number>;
  readonly verticalFovDeg?: number;
}

export interface FitOptions {
  /** Field of view over the upright frame's height; left out, 50° over the shorter side is taken. */
  readonly verticalFovDeg?: number;
  /** Camera pitch (positive: the lens looks below the horizon) and roll (positive: turned clockwise), where they are known; else estimated. */
  readonly pitchRad?: number;
  readonly rollRad?: number;
  readonly furtherCameras?: readonly FurtherCamera[];
  readonly contacts?: ContactOverride;
  /** Known poses at the start of the take. */
  readonly slate?: SlateSpans | null;
  /** What the reader made of the track, where it was read. */
  readonly readings?: Readings | null;
  /** Families of residuals left out: for ablations. */
  readonly without?: readonly FamilyName[];
}

export interface FitHooks {
  readonly shouldStop?: () => boolean;
  /** Share of the work done, 0..1, rising. */
  readonly onProgress?: (fraction: number) => void;
}

/** Knots a second at most (chosen: bias is alike for longer; a 2 Hz move keeps five knots a turn), and rounds of solving with lengths measured anew between. */
const KNOT_RATE = 10;
const ROUND_ITERATIONS = [6, 4, 4] as const;
const FULL_ITERATIONS = 3;
const ENOUGH = 2e-4;
/** Frames at most this far apart carry the step residual; slower clips have each frame stand alone. */
const STEP_SPAN_S = 0.06;
/**
 * Smoothness flattens quick moves, and worse: a bone that leans into depth moves less in the picture, so it would rather lean than swing.
 * So the arms, which are quick, are let loose at the knots too (legs there are not: it made knees worse, tuned).
 */
const KNOT_LOOSENESS: Looseness = { arms: 2, legs: 1, hips: 1 };
/**
 * At every frame all limbs are looser, so that a move of 2 Hz keeps its size; jitter is left to the smoothing that follows. But the hips'
 * line is held stiffer: it is short, and trembles most where it points at the lens. All chosen, see the tests of gain and of holds.
 */
const FOLLOW_LOOSENESS: Looseness = { arms: 8, legs: 8, hips: 0.6 };

/**
 * Fits the figure to a take.
 *
 * @param track T frames of the (already mirrored, if need be) take
 * @returns the body in stage axes; see FittedBody
 * @throws NudgebookError `no-person` where no frame has anybody; `bad-argument` where a further track has other times
 */
export function fitBody(track: Track, options: FitOptions = {}, hooks: FitHooks = {}): FittedBody {
  return bodyOf(fitWhole(track, options, hooks));
}

/** As {@link fitBody}, but gives the fit as it stands in the solver, to go on from. */
export function fitWhole(track: Track, options: FitOptions = {}, hooks: FitHooks = {}): WholeFit {
  if (foundCount(track) === 0) {
    throw new NudgebookError('no-person', 'Nobody was found in any frame of this take.', 'Film the whole body against a plain background and try again.');
  }
  const views = viewsOf(track, options);
  const shouldStop = hooks.shouldStop ?? ((): boolean => false);
  const budget = ROUND_ITERATIONS.reduce((sum, n) => sum + n, 0) + FULL_ITERATIONS * FULL_COST;
  let spent = 0;
  const report = (): void => hooks.onProgress?.(Math.min(1, spent / budget));

  const { timesS } = track;
  const root = placeRoot(track, views[0]!.focalPx);
  fillHoles(root, 3, timesS);
  const metresPerPx = quantile(Array.from({ length: timesS.length }, (_, t) => root[t * 3 + 2]!), 0.5) / views[0]!.focalPx;

  const knots = knotsOf(timesS);
  const stride = knots.length > 1 ? knots[1]! - knots[0]! : 1;
  const knotTimes = Float64Array.from(knots, (t) => timesS[t]!);
  const knotRoot = pick(root, 3, knots);
  const cameras = views.map((view) => observe(view, knots, stride - 1, metresPerPx));
  const trunk = rawTrunk(views[0]!, knots, knotTimes);
  const least = leastTrunk(trunk);
  let depths = rawDepths(views[0]!, knots, knotRoot);
  let lengths = measureLengths(cameras[0]!, depths, FIRST_SHARE, least);
  let stands = rawStands(views[0]!, root, options.contacts);
  const atKnots = (whole: Stands): Stands => ({ planted: pick(whole.planted, 2, knots), standing: pick(whole.standing, 2, knots) });
  const habits = views[0]!.readings === null ? HABITS[track.model] : afterReading(HABITS[track.model]);
  let problem = makeProblem(knotTimes, cameras, habits, atKnots(stands), lengths, options, false);
  const figure = startTrunk(problem, knotRoot, trunk);
  const plain = (about: Figure, from: readonly Observations[]): Observations[] => from.map((camera) => {
    const placed = withoutHabits(camera, about, habits);
    return placed.read === null ? placed : withReading(placed, placed.read, about);
  });
  problem = { ...problem, cameras: plain(figure, cameras) };
  startLimbs(problem, figure);
  problem = { ...problem, cameras: plain(figure, cameras) };
  const knotRows = new NormalEquations(problem.frames, figure.globals.length);
  let iterations = 0;
  let stopped = false;

  const limits = (count: number, cost: number): SolveLimits => ({
    iterations: count, enough: ENOUGH, without: options.without ?? [], shouldStop,
    onIteration: () => { spent += cost; report(); },
  });
  for (let round = 0; round < ROUND_ITERATIONS.length && !stopped; round++) {
    const solved = solve(problem, figure, knotRows, limits(ROUND_ITERATIONS[round]!, 1));
    iterations += solved.iterations;
    stopped = solved.stopped;
    spent = ROUND_ITERATIONS.slice(0, round + 1).reduce((sum, n) => sum + n, 0);
    report();
    if (round === ROUND_ITERATIONS.length - 1 || stopped) break;
    depths = Float64Array.from({ length: knots.length * POINT_COUNT }, (_, i) => figure.seen[i * 3 + 2]!);
    const unbiased = plain(figure, cameras);
    lengths = measureLengths(unbiased[0]!, depths, LATER_SHARE, least);
    stands = fittedStands(views[0]!, figure, knotTimes, options.contacts);
    problem = makeProblem(knotTimes, unbiased, habits, atKnots(stands), lengths, options, false);
  }

  const sigma = stopped ? NO_CAMERA_SIGMA : cameraSigma(problem, figure, knotRows, options.without ?? []);

  const every = Int32Array.from(timesS, (_, t) => t);
  const full = spread(figure, knotTimes, timesS);
  const fullCameras = plain(full, views.map((view) => observe(view, every, 0, metresPerPx))).map((camera) => withoutJumps(camera, full, timesS));
  const fullProblem = makeProblem(timesS, fullCameras, habits, stands, lengths, options, true);
  if (!stopped) {
    const solved = solve(fullProblem, full, new NormalEquations(full.frames, 0), limits(FULL_ITERATIONS, FULL_COST));
    iterations += solved.iterations;
    stopped = solved.stopped;
  }
  spent = budget;
  report();
  const given = { pitch: options.pitchRad !== undefined, roll: options.rollRad !== undefined, fov: options.verticalFovDeg !== undefined };
  return { problem: fullProblem, figure: full, views, given, cameraSigma: sigma, iterations, stopped };
}

/** Quantiles of projected length: first guess, and at the fitted depth (lab). */
const FIRST_SHARE = 0.95;
const LATER_SHARE = 0.9;
/** Work of one iteration at every frame, in iterations at the knots, for the progress bar only. */
const FULL_COST = 2;

function viewsOf(track: Track, options: FitOptions): View[] {
  const first: View = {
    track, focalPx: focalLengthPx(track.widthPx, track.heightPx, options.verticalFovDeg),
    rotation: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1), translationM: new Float64Array(3), readings: options.readings ?? null,
  };
  const further = (options.furtherCameras ?? []).map((camera): View => {
    if (camera.track.timesS.length !== track.timesS.length) {
      throw new NudgebookError('bad-argument', `The second view has ${camera.track.timesS.length} frames and the first ${track.timesS.length}.`,
        'Bring both views to the same frames first.');
    }
    return {
      track: camera.track, focalPx: focalLengthPx(camera.track.widthPx, camera.track.heightPx, camera.verticalFovDeg),
      rotation: Float64Array.from(camera.rotation), translationM: Float64Array.from(camera.translationM), readings: null,
    };
  });
  return [first, ...further];
}

/** Every n-th frame so that about KNOT_RATE a second remain, and always the last. */
function knotsOf(timesS: Float64Array): Int32Array {
  const frames = timesS.length;
  const typical = quantile(Array.from({ length: frames - 1 }, (_, t) => timesS[t + 1]! - timesS[t]!), 0.5);
  const stride = typical > 0 ? Math.max(1, Math.round(1 / (KNOT_RATE * typical))) : 1;
  const out: number[] = [];
  for (let t = 0; t < frames; t += stride) out.push(t);
  if (out[out.length - 1] !== frames - 1) out.push(frames - 1);
  return Int32Array.from(out);
}

function pick(series: Float64Array, width: number, knots: Int32Array): Float64Array {
  const out = new Float64Array(knots.length * width);
  for (let k = 0; k < knots.length; k++) out.set(series.subarray(knots[k]! * width, (knots[k]! + 1) * width), k * width);
  return out;
}

function makeProblem(
  timesS: Float64Array, cameras: readonly Observations[], habits: Habits, stands: Stands, lengths: BodyLengths, options: FitOptions, useSteps: boolean,
): Problem {
  const frames = timesS.length;
  const spanS = new Float64Array(frames);
  const evidence = new Float64Array(frames);
  for (let t = 0; t < frames; t++) {
    const before = t > 0 ? timesS[t]! - timesS[t - 1]! : 0;
    const after = t < frames - 1 ? timesS[t + 1]! - timesS[t]! : 0;
    spanS[t] = (before + after) / (t > 0 && t < frames - 1 ? 2 : 1);
    if (frames === 1) spanS[t] = ERROR_MEMORY_S;
    const seen = cameras.some((camera) => !Number.isNaN(camera.elbowRad[t * 2]!));
    evidence[t] = seen ? Math.min(1, spanS[t]! / ERROR_MEMORY_S) : 0;
  }
  const prior = (given: number | undefined, sigmaRad: number): AnglePrior =>
    given === undefined ? { meanRad: 0, sigmaRad } : { meanRad: given, sigmaRad: GIVEN_ANGLE_SIGMA_RAD };
  const typical = quantile(spanS, 0.5);
  const said = slateRows(timesS, evidence, options.slate ?? null);
  return {
    frames, timesS, spanS, evidence, cameras, habits, ...stands,
    logLengths: lengths.limbs.map((l) => Math.log(l)), trunkM: lengths.trunk,
    pitch: prior(options.pitchRad, PITCH_SIGMA_RAD), roll: prior(options.rollRad, ROLL_SIGMA_RAD),
    useSteps: useSteps && typical <= STEP_SPAN_S,
    looseness: useSteps && typical <= STEP_SPAN_S ? FOLLOW_LOOSENESS : KNOT_LOOSENESS,
    handSet: said.length === 0 ? null : { ...NOTHING_SAID, angles: said },
  };
}

/** The figure at every frame, from its knots. */
function spread(figure: Figure, knotTimes: Float64Array, timesS: Float64Array): Figure {
  const out = emptyFigure(timesS.length, figure.globals.length);
  out.free.set(interpolate(figure.free, 12, knotTimes, timesS));
  out.directions.set(interpolate(figure.directions, 24, knotTimes, timesS));
  out.slack.set(interpolate(figure.slack, 8, knotTimes, timesS));
  out.globals.set(figure.globals);
  for (let i = 0; i < out.directions.length; i += 3) {
    const by = 1 / (Math.hypot(out.directions[i]!, out.directions[i + 1]!, out.directions[i + 2]!) || 1);
    for (let k = 0; k < 3; k++) out.directions[i + k] = out.directions[i + k]! * by;
  }
  settle(out);
  return out;
}

