/** What happens to marks when the settings around them change, so that a timing stays what a person meant by it. */
import type { HoldSpan, TimingSettings } from '../timingSettings.ts';
import { anchorsOf, type Base } from '../warp/anchors.ts';
import { makeWarp } from '../warp/warp.ts';

/**
 * Another number of exposures a second: marks that stood on a whole exposure stand on the nearest one again, others keep
 * their moment of the film; hold spans keep theirs, to the nearest exposure.
 */
export function atRate(timing: TimingSettings, before: number, after: number): TimingSettings {
  if (timing.marks.length === 0 && timing.holdSpans.length === 0) return timing;
  const marks = timing.marks.map((mark) => {
    const onWhole = Math.abs(mark.filmS * before - Math.round(mark.filmS * before)) < 1e-6;
    return onWhole ? { ...mark, filmS: Math.round(mark.filmS * after) / after } : mark;
  });
  return {
    ...timing,
    marks: marks.filter((mark, k) => mark.filmS > (marks[k - 1]?.filmS ?? 0)),
    holdSpans: rising(timing.holdSpans.map(({ fromExposure, on }) => ({ fromExposure: Math.round(((fromExposure - 1) / before) * after) + 1, on }))),
  };
}

/** Another time scale: the film of what is marked grows or shrinks alike, locked or not. */
export function atTimeScale(timing: TimingSettings, before: number, after: number): TimingSettings {
  if (timing.marks.length === 0) return timing;
  const by = after / before;
  return { ...timing, marks: timing.marks.map((mark) => ({ ...mark, filmS: mark.filmS * by })) };
}

/**
 * Another in point: the film begins elsewhere, and everything behind keeps its place in the performance. Marks before the
 * new first exposure go.
 */
export function atInPoint(timing: TimingSettings, before: Base, afterInS: number): TimingSettings {
  const warp = makeWarp(anchorsOf(timing.marks, before));
  const byS = afterInS >= before.inS ? warp.filmAt(afterInS) : (afterInS - before.inS) / before.sourcePerFilm;
  return {
    ...timing,
    marks: timing.marks.filter(({ sourceS, filmS }) => sourceS > afterInS && filmS - byS > 1e-6).map((mark) => ({ ...mark, filmS: mark.filmS - byS })),
  };
}

function rising(spans: readonly HoldSpan[]): readonly HoldSpan[] {
  // of two that fall on one exposure the later counts
  return spans.filter((span, k) => span.fromExposure < (spans[k + 1]?.fromExposure ?? Infinity));
}
