/**
 * Editing marks: pure functions from one timing to the next. They keep what makes a timing sound: marks rise in both times,
 * are at least an exposure apart on the film (but for a held moment, whose two marks share one moment of the take), and
 * locked marks stay where they are.
 */
import { NudgebookError } from '../../errors.ts';
import type { MarkKind, TimeMark, TimingSettings } from '../timingSettings.ts';
import { anchorsOf, type Base } from '../warp/anchors.ts';
import { makeWarp, type Warp } from '../warp/warp.ts';

/** What an edit must know besides the timing. */
export interface MarkContext {
  readonly base: Base;
  /** Exposures a second. */
  readonly rate: number;
}

export function warpFor(timing: Pick<TimingSettings, 'marks'>, { base }: MarkContext): Warp {
  return makeWarp(anchorsOf(timing.marks, base));
}

/** A moment that lies on a whole exposure but for rounding is that exposure's own number. */
export function tidied(filmS: number, rate: number): number {
  const whole = Math.round(filmS * rate);
  return Math.abs(filmS * rate - whole) < 1e-6 ? whole / rate : filmS;
}

/** The exposure (counted from 1) that begins at a moment of the film. */
export function exposureAt(filmS: number, rate: number): number {
  return Math.round(filmS * rate) + 1;
}

export interface NewMark {
  readonly id: string;
  readonly sourceS: number;
  readonly kind: MarkKind;
  readonly name: string;
}

/**
 * Puts a mark where its moment of the take stands now, so that nothing changes until it is moved. A mark that is there
 * already stays the only one.
 *
 * @throws NudgebookError `bad-timing` for a moment outside the used part of the take
 */
export function placeMark(timing: TimingSettings, context: MarkContext, mark: NewMark): TimingSettings {
  const { base, rate } = context;
  if (mark.sourceS < base.inS || mark.sourceS > base.outS) {
    throw refused('This moment lies outside the part of the take that is used.', 'Move the in or the out point first, or mark another moment.');
  }
  const filmS = tidied(warpFor(timing, context).filmAt(mark.sourceS), rate);
  if (filmS * rate < 0.5) throw refused('The first exposure is tied to the in point and needs no mark.', 'Move the in point instead.');
  if (timing.marks.some((other) => Math.abs(other.filmS - filmS) * rate < 0.5)) {
    throw refused('There is a mark at this exposure already.', 'Move or rename that one.');
  }
  return withMarks(timing, sorted([...timing.marks, { ...mark, filmS, locked: false }]));
}

/** Several at once; those that find no place of their own are left out. */
export function placeMarks(timing: TimingSettings, context: MarkContext, marks: readonly NewMark[]): TimingSettings {
  let out = timing;
  for (const mark of marks) {
    try {
      out = placeMark(out, context, mark);
    } catch (thrown) {
      // one that falls on another, or outside, is not an error of the others
      if (!(thrown instanceof NudgebookError && thrown.code === 'bad-timing')) throw thrown;
    }
  }
  return out;
}

/**
 * Moves one mark to the exposure nearest a moment of the film; the others stay. It stops one exposure short of its
 * neighbours.
 *
 * @throws NudgebookError `bad-timing` for a locked mark, or where its neighbours leave no exposure free
 */
export function moveMark(timing: TimingSettings, { rate }: MarkContext, id: string, filmS: number): TimingSettings {
  const at = indexOf(timing, id);
  const mark = timing.marks[at]!;
  if (mark.locked) throw refused(`The mark ${named(mark)} is locked.`, 'Unlock it to move it.');
  const least = Math.floor((timing.marks[at - 1]?.filmS ?? 0) * rate + 1e-6) + 1;
  const most = at + 1 < timing.marks.length ? Math.ceil(timing.marks[at + 1]!.filmS * rate - 1e-6) - 1 : Infinity;
  if (least > most) throw refused(`There is no exposure free for the mark ${named(mark)}.`, 'Move a mark beside it first.');
  const exposure = Math.min(most, Math.max(least, Math.round(filmS * rate)));
  // the very timing again, so that nothing is made anew
  if (exposure / rate === mark.filmS) return timing;
  return replaced(timing, at, { ...mark, filmS: exposure / rate });
}

/** Sets a mark to an exposure (counted from 1) exactly, or says why it can't be. Errors as for {@link moveMark}, and where a neighbour is in the way. */
export function typeMark(timing: TimingSettings, context: MarkContext, id: string, exposure: number): TimingSettings {
  if (!Number.isInteger(exposure) || exposure < 2) throw refused(`A mark can’t stand at exposure ${exposure}.`, 'Type a whole number from 2 up.');
  const filmS = (exposure - 1) / context.rate;
  const moved = moveMark(timing, context, id, filmS);
  const mark = moved.marks[indexOf(moved, id)]!;
  if (Math.abs(mark.filmS - filmS) * context.rate > 1e-6) {
    throw refused(`Another mark stands between here and exposure ${exposure}; the nearest free one is ${exposureAt(mark.filmS, context.rate)}.`, 'Type that one, or move the other mark first.');
  }
  return moved;
}

export function removeMark(timing: TimingSettings, id: string): TimingSettings {
  const at = indexOf(timing, id);
  return withMarks(timing, timing.marks.filter((_, k) => k !== at));
}

export function lockMark(timing: TimingSettings, id: string, locked: boolean): TimingSettings {
  const at = indexOf(timing, id);
  return replaced(timing, at, { ...timing.marks[at]!, locked });
}

export function renameMark(timing: TimingSettings, id: string, name: string): TimingSettings {
  const at = indexOf(timing, id);
  return replaced(timing, at, { ...timing.marks[at]!, name });
}

export function withMarks(timing: TimingSettings, marks: readonly TimeMark[]): TimingSettings {
  return { ...timing, marks };
}

export function sorted(marks: readonly TimeMark[]): readonly TimeMark[] {
  return [...marks].sort((a, b) => a.filmS - b.filmS || a.sourceS - b.sourceS);
}

export function named({ name }: TimeMark): string {
  return name === '' ? 'without a name' : `“${name}”`;
}

export function refused(sentence: string, tip: string): NudgebookError {
  return new NudgebookError('bad-timing', sentence, tip);
}

function replaced(timing: TimingSettings, at: number, mark: TimeMark): TimingSettings {
  return withMarks(timing, timing.marks.map((other, k) => (k === at ? mark : other)));
}

function indexOf({ marks }: TimingSettings, id: string): number {
  const at = marks.findIndex((mark) => mark.id === id);
  if (at < 0) throw refused('This mark is not there any more.', 'Choose another one.');
  return at;
}
