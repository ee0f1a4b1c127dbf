/**
 * Spans made longer or shorter: a pause, a move, any stretch between two moments. Marks within keep their share of it. What
 * comes after moves along; the first locked mark behind stops that, and the stretch before it takes the change up.
 */
import type { TimingSettings } from '../timingSettings.ts';
import { placeMark, refused, sorted, tidied, warpFor, withMarks, named, type MarkContext, type NewMark } from './marks.ts';

/** Where a span begins or ends; its mark is placed if none stands there. */
export type SpanEnd = NewMark;

/** How near, in exposures, a mark must stand to be the one of a moment. */
const SAME_EXPOSURES = 0.5;

/**
 * Gives the span between two moments of the take a length on the film.
 *
 * @param exposures its new length, a whole number from 1
 * @throws NudgebookError `bad-timing`: nothing between the two moments, a locked end, no room before a locked mark
 */
export function resizeSpan(timing: TimingSettings, context: MarkContext, from: SpanEnd, to: SpanEnd, exposures: number): TimingSettings {
  if (!Number.isInteger(exposures) || exposures < 1) throw refused(`A span can’t last ${exposures} exposures.`, 'Type a whole number from 1 up.');
  return sized(timing, context, from, to, exposures);
}

/** The same for any length, whole exposures or not. */
function sized(timing: TimingSettings, context: MarkContext, from: SpanEnd, to: SpanEnd, exposures: number): TimingSettings {
  if (!(to.sourceS > from.sourceS)) throw refused('Nothing lies between these two moments.', 'Choose a span that ends later than it begins.');
  let marked = ensure(timing, context, from);
  marked = ensure(marked, context, to);
  const { rate } = context;
  const warp = warpFor(marked, context);
  const start = warp.filmAt(Math.max(context.base.inS, from.sourceS));
  const endS = warp.filmAt(to.sourceS);
  const end = marked.marks.findIndex((mark) => Math.abs(mark.filmS - endS) * rate < SAME_EXPOSURES);
  const was = (marked.marks[end]?.filmS ?? endS) - start;
  const by = exposures / rate / was;
  const shifted = shiftFrom(marked, context, end, exposures / rate - was);
  const inner = marked.marks.filter(({ filmS }, k) => k < end && (filmS - start) * rate > SAME_EXPOSURES);
  const lockedOne = inner.find(({ locked }) => locked);
  if (lockedOne !== undefined) throw refused(`The mark ${named(lockedOne)} within the span is locked.`, 'Unlock it, or change the spans on both sides of it.');
  if (by < 1 && inner.some(({ filmS }, k) => (filmS - (inner[k - 1]?.filmS ?? start)) * by * rate < 1 - 1e-6)) {
    throw refused('The marks within the span would fall on one exposure.', 'Remove some of them, or make the change smaller.');
  }
  return withMarks(shifted, shifted.marks.map((mark) => (inner.some(({ id }) => id === mark.id) ? { ...mark, filmS: tidied(start + (mark.filmS - start) * by, rate) } : mark)));
}

/** Makes a span longer or, below 0, shorter by so many exposures. Errors as for {@link resizeSpan}. */
export function lengthenSpan(timing: TimingSettings, context: MarkContext, from: SpanEnd, to: SpanEnd, byExposures: number): TimingSettings {
  const warp = warpFor(timing, context);
  const now = (warp.filmAt(to.sourceS) - warp.filmAt(from.sourceS)) * context.rate;
  if (now + byExposures < 1 - 1e-6) throw refused('A span lasts one exposure at least.', 'Make the change smaller.');
  // by just so many, also where the span lies between exposures: what comes after must keep its place on them
  return sized(timing, context, from, to, now + byExposures);
}

/** Plays a span so many times faster (below 1: slower); to the nearest whole exposure. Errors as for {@link resizeSpan}. */
export function speedSpan(timing: TimingSettings, context: MarkContext, from: SpanEnd, to: SpanEnd, factor: number): TimingSettings {
  if (!(factor > 0 && Number.isFinite(factor))) throw refused(`A speed of ${factor} makes no sense.`, 'Type a number above 0: 2 is twice as fast.');
  const warp = warpFor(timing, context);
  const now = (warp.filmAt(to.sourceS) - warp.filmAt(from.sourceS)) * context.rate;
  return resizeSpan(timing, context, from, to, Math.max(1, Math.round(now / factor)));
}

/**
 * Holds one moment of the take for so many exposures; what comes after moves along. The performance eases into the hold and
 * out of it.
 *
 * @param at the moment; @param endId id of the mark that ends the hold
 */
export function insertPause(timing: TimingSettings, context: MarkContext, at: SpanEnd, endId: string, exposures: number): TimingSettings {
  if (!Number.isInteger(exposures) || exposures < 1) throw refused(`A pause can’t last ${exposures} exposures.`, 'Type a whole number from 1 up.');
  const marked = ensure(timing, context, at);
  const index = marked.marks.findIndex((mark) => Math.abs(mark.filmS - warpFor(marked, context).filmAt(at.sourceS)) * context.rate < SAME_EXPOSURES);
  const mark = marked.marks[index];
  if (mark === undefined) throw refused('A pause can’t begin at the first exposure.', 'Choose a later moment, or start the take earlier.');
  if (marked.marks[index + 1]?.sourceS === mark.sourceS) throw refused('This moment is held already.', 'Make that pause longer.');
  const ended = { ...mark, id: endId, kind: 'end' as const, name: mark.name === '' ? '' : `${mark.name}, end`, locked: false };
  const byS = exposures / context.rate;
  // the moments after it go along first, so that there is room
  const moved = index + 1 < marked.marks.length ? shiftFrom(marked, context, index + 1, byS) : marked;
  return withMarks(moved, sorted([...moved.marks, { ...ended, filmS: tidied(mark.filmS + byS, context.rate) }]));
}

/** Moves the end of a hold, and what comes after, by so many exposures. Errors as for {@link resizeSpan}. */
export function lengthenHold(timing: TimingSettings, context: MarkContext, endId: string, byExposures: number): TimingSettings {
  const end = timing.marks.findIndex(({ id }) => id === endId);
  const before = timing.marks[end - 1];
  const mark = timing.marks[end];
  if (mark === undefined || before === undefined) throw refused('This hold is not there any more.', 'Choose another one.');
  if ((mark.filmS - before.filmS) * context.rate + byExposures < 1 - 1e-6) throw refused('A hold lasts one exposure at least.', 'Remove its end mark to take it away.');
  return shiftFrom(timing, context, end, byExposures / context.rate);
}

/** A mark at a moment, unless one stands there or it is the in point. */
function ensure(timing: TimingSettings, context: MarkContext, end: SpanEnd): TimingSettings {
  const filmS = warpFor(timing, context).filmAt(end.sourceS);
  if (filmS * context.rate < SAME_EXPOSURES) return timing;
  if (timing.marks.some((mark) => Math.abs(mark.filmS - filmS) * context.rate < SAME_EXPOSURES)) return timing;
  return placeMark(timing, context, end);
}

/** Moves a mark and all behind it, up to the first locked one. */
function shiftFrom(timing: TimingSettings, { rate }: MarkContext, first: number, byS: number): TimingSettings {
  const { marks } = timing;
  const mark = marks[first];
  if (mark === undefined) throw refused('The span ends with the take, which has no mark to move.', 'Mark a moment before the end, or change the time scale.');
  if (mark.locked) throw refused(`The span ends at the mark ${named(mark)}, which is locked.`, 'Unlock it to change the length.');
  let stop = first;
  while (stop < marks.length && !marks[stop]!.locked) stop++;
  const wall = marks[stop];
  const lastMoved = marks[stop - 1]!;
  if (wall !== undefined && (wall.filmS - lastMoved.filmS - byS) * rate < 1 - 1e-6) {
    throw refused(`The locked mark ${named(wall)} leaves no room for that.`, 'Unlock it, or make the change smaller.');
  }
  return withMarks(timing, marks.map((other, k) => (k >= first && k < stop ? { ...other, filmS: tidied(other.filmS + byS, rate) } : other)));
}
