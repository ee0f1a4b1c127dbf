/**
 * The one playhead: a step of the plan, and how many source frames away from that step's own frame one is looking.
 *
 * It lives outside React. Whoever shows it registers a painter; all painters run together in the next animation frame, so
 * that a move costs one redraw however fast a key repeats. Each redraw leaves two performance measures: `playhead` (from the
 * move to the end of the redraw) and `playhead-draw` (the redraw alone).
 */
import { createStore } from 'zustand/vanilla';

export interface Playhead {
  /** Index of the step, from 0. */
  readonly step: number;
  /** Source frames before (−) or after (+) the frame on display at that step. */
  readonly nudge: number;
}

export const playhead = createStore<Playhead>(() => ({ step: 0, nudge: 0 }));

type Painter = (at: Playhead) => void;

const painters = new Set<Painter>();
/** Painters that have not painted yet: where the playhead stands still, they alone are asked. */
const fresh = new Set<Painter>();
let everybody = false;
let asked: number | null = null;
let movedAtMs: number | null = null;
let measured = 0;

/** Measures are dropped after so many, or a long day would fill the browser's list. */
const KEEP_MEASURES = 2000;

function paint(): void {
  asked = null;
  const startMs = performance.now();
  const at = playhead.getState();
  const asking = everybody ? [...painters] : [...fresh];
  everybody = false;
  fresh.clear();
  for (const painter of asking) painter(at);
  const endMs = performance.now();
  measured += 1;
  if (measured % KEEP_MEASURES === 0) {
    performance.clearMeasures('playhead');
    performance.clearMeasures('playhead-draw');
  }
  performance.measure('playhead-draw', { start: startMs, end: endMs });
  if (movedAtMs !== null) performance.measure('playhead', { start: movedAtMs, end: endMs });
  movedAtMs = null;
}

/** Asks for a redraw of everything that shows the playhead, in the next animation frame. */
export function repaintPlayhead(): void {
  everybody = true;
  askForFrame();
}

function askForFrame(): void {
  if (asked === null && typeof requestAnimationFrame === 'function') asked = requestAnimationFrame(paint);
}

/** Registers a painter, paints it once soon, without the others, and returns how to take it away again. */
export function paintWithPlayhead(painter: Painter): () => void {
  painters.add(painter);
  fresh.add(painter);
  askForFrame();
  return () => {
    painters.delete(painter);
    fresh.delete(painter);
  };
}

/** Moves the playhead; a place it is already at costs nothing. */
export function setPlayhead(next: Playhead): void {
  const now = playhead.getState();
  if (now.step === next.step && now.nudge === next.nudge) return;
  movedAtMs ??= typeof performance === 'undefined' ? null : performance.now();
  playhead.setState(next);
  repaintPlayhead();
}
