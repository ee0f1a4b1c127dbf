/**
 * Works corrections into a finished fit. Always from the fit as it was without them, so that the order in which they were made does
 * not matter and taking one back leaves no trace.
 *
 * First what changes the ground (limbs turned over in depth, feet that stand or don't), then, from there, what was placed or typed.
 */
import { overrideContacts } from '../fit/contacts.ts';
import { copyUnknowns, emptyFigure, settle, type Figure } from '../fit/figure.ts';
import { NOTHING_SAID, type HandSet, type PinRow, type PlaceRow } from '../fit/handSet.ts';
import { NormalEquations } from '../fit/normalEquations.ts';
import type { Problem } from '../fit/problem.ts';
import { makeRigid, standStill } from '../fit/rigid.ts';
import { solve } from '../fit/solve.ts';
import type { WholeFit } from '../fit/wholeFit.ts';
import { carriedWords } from './carried.ts';
import { contactOverride } from './contactWords.ts';
import type { Corrections } from './corrections.ts';
import { flipDepth } from './depthFlip.ts';
import { holdAllBut, partOfJoint, partOfLandmark, pinAt, type Part } from './hold.ts';
import { frameAt, framesIn } from './moments.ts';
import { placedRows, seenAt, type PlacedRows } from './placedWords.ts';
import { REACH_S } from './spread.ts';
import { typedRows } from './typedWords.ts';
import { cutFigure, cutProblem, joinWindows, putBack, windowAbout } from './windows.ts';

/** Iterations in a window; each is a matter of milliseconds, and the last ones change little. */
const ITERATIONS = 12;
const ENOUGH = 1e-4;
/** Solves with placed joints at most, each aimed at what the one before left over, until they end within this share of a landmark's error (1 px of 4). */
const PASSES = 4;
const CLOSE_SHARE = 0.25;
/** How far beyond its span a depth flip or a standing foot is smoothed into what is about it (chosen). */
const BLEND_S = 0.4;

/** The corrections that change a finished fit in places; camera, swaps and slate go into the fit itself. */
export type LocalCorrections = Pick<Corrections, 'placed' | 'angles' | 'depthFlips' | 'contacts'>;

export function hasLocal({ placed, angles, depthFlips, contacts }: LocalCorrections): boolean {
  return placed.length + angles.length + depthFlips.length + contacts.length > 0;
}

/** @param corrections in the fit's own times */
export function applyCorrections(whole: WholeFit, corrections: LocalCorrections): WholeFit {
  if (!hasLocal(corrections)) return whole;
  const { timesS, frames } = whole.problem;
  const figure = emptyFigure(frames, whole.figure.globals.length);
  copyUnknowns(whole.figure, figure);
  settle(figure);
  const track = whole.views[0]!.track;

  const planted = whole.problem.planted.slice();
  const standing = whole.problem.standing.slice();
  for (const found of [planted, standing]) overrideContacts(found, contactOverride(timesS, corrections.contacts));
  const signs = flipDepth(figure, timesS, corrections.depthFlips);
  const flips = corrections.depthFlips.map(({ limb, fromS, toS }): Touched => ({ part: limb, fromS, toS }));
  const stands = corrections.contacts.map(({ fromS, toS }): Touched => ({ part: 'trunk', fromS, toS }));
  const before = whole.problem.handSet ?? NOTHING_SAID;
  const ground: HandSet = { ...before, signs };
  let problem: Problem = { ...whole.problem, planted, standing, handSet: ground };
  workIn(problem, figure, ground, [...flips, ...stands], BLEND_S);

  const placed = placedRows(problem, figure, track.widthPx, track.heightPx, corrections.placed);
  const typed = typedRows(problem, figure, corrections.angles);
  const touched = [
    ...corrections.placed.map(({ landmark, timeS }) => ({ part: partOfLandmark(landmark), fromS: timeS, toS: timeS })),
    ...corrections.angles.map(({ joint, timeS }) => ({ part: partOfJoint(joint), fromS: timeS, toS: timeS })),
  ].filter((one): one is Touched => one.part !== null);
  const [first, ...further] = problem.cameras;
  problem = { ...problem, cameras: [{ ...first!, image: placed.image }, ...further] };
  let handSet: HandSet = { ...ground, angles: [...before.angles, ...typed.rows], firm: placed.keys };
  for (let pass = 0; pass < PASSES; pass++) {
    // What is made of the solver's figure afterwards moves the root a little: aimed off by as much, a joint ends where it was put.
    const off = placed.rows.length === 0 ? [] : afterwards(figure, planted, first!.focalPx, placed.rows);
    handSet = { ...handSet, places: placed.rows.map((row, i) => ({ ...row, x: row.x - off[i]![0], y: row.y - off[i]![1] })) };
    workIn(problem, figure, handSet, touched, REACH_S);
    if (placed.rows.length === 0 || missedPx(figure, planted, first!.focalPx, placed) < CLOSE_SHARE * first!.sigmaPx) break;
  }
  const lens = { focalPx: first!.focalPx, widthPx: track.widthPx, heightPx: track.heightPx };
  const adjust = carriedWords(timesS, lens, corrections.placed, corrections.angles);
  return { ...whole, problem: { ...problem, handSet }, figure, adjust };
}

/** How far the farthest placed joint ends from where it was put, pixels. */
function missedPx(figure: Figure, planted: Float64Array, focalPx: number, { rows }: PlacedRows): number {
  const rigid = makeRigid(figure);
  standStill(rigid, planted);
  let farthest = 0;
  for (const { frame, point, x, y, key } of rows) {
    if (!key) continue;
    const [u, v] = seenAt(focalPx, rigid, frame, point);
    farthest = Math.max(farthest, Math.hypot(u - x, v - y));
  }
  return farthest;
}

/** How far each row's joint is moved in the picture by making the figure rigid and its feet stand, pixels. */
function afterwards(figure: Figure, planted: Float64Array, focalPx: number, rows: readonly PlaceRow[]): (readonly [number, number])[] {
  const rigid = makeRigid(figure);
  standStill(rigid, planted);
  return rows.map(({ frame, point }) => {
    const before = seenAt(focalPx, figure, frame, point);
    const after = seenAt(focalPx, rigid, frame, point);
    return [after[0] - before[0], after[1] - before[1]];
  });
}

/** A part of the figure that a correction is about, and when. */
interface Touched {
  readonly part: Part;
  readonly fromS: number;
  readonly toS: number;
}

/** Solves the frames about what was touched, each window alone, with the take's unknowns and all untouched parts held, and puts them back. */
function workIn(problem: Problem, figure: Figure, handSet: HandSet, touched: readonly Touched[], reachS: number): void {
  const { timesS } = problem;
  const reached = touched.flatMap(({ part, fromS, toS }) => {
    const [first, last] = [frameAt(timesS, fromS), frameAt(timesS, toS)];
    const span = fromS === toS ? (first < 0 ? null : [first, last] as const) : framesIn(timesS, fromS, toS);
    return span === null ? [] : [{ part, ...windowAbout(timesS, span[0], span[1], reachS) }];
  });
  for (const window of joinWindows(reached)) {
    const pins: PinRow[] = [];
    for (let t = window.from; t <= window.to; t++) {
      const parts = new Set(reached.filter(({ from, to }) => from <= t && t <= to).map(({ part }) => part));
      pins.push(pinAt(figure, t, holdAllBut(parts)));
    }
    const part = cutFigure(figure, window);
    solve(cutProblem(problem, figure, window, { ...handSet, pins }), part, new NormalEquations(part.frames, 0), {
      iterations: ITERATIONS, enough: ENOUGH, without: [], shouldStop: () => false, onIteration: () => undefined,
    });
    putBack(figure, part, window);
  }
  settle(figure);
}
