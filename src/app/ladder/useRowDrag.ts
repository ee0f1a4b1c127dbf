/**
 * Dragging along the rows: what is dragged stays under the pointer, also while the rows scroll beneath it; near the upper and
 * lower edge they do so by themselves. Escape, or a pointer that is taken away, puts it back.
 */
import { type PointerEvent, useEffect, useRef } from 'react';
import { edgeSpeed } from '../../charts/rowScale.ts';

export interface RowDrag {
  /** @param yPx height of the pointer over the rows, px from the top of the first */
  readonly move: (yPx: number) => void;
  /** It is let go of where it is. */
  readonly end: () => void;
  /** It is to be as it was. */
  readonly cancel: () => void;
}

/** Takes hold: to be called in `pointerdown` of what is dragged, which must stand in the bench. */
export type TakeHold = (event: PointerEvent<HTMLElement>) => void;

/** Attribute of the bench while something is dragged over its rows. */
export const HELD = 'data-held';

/** A display frame counts at most so long, or the rows would leap after a busy moment, ms. */
const LONGEST_FRAME_MS = 50;

/** Heights in the window, px. */
interface Edges {
  readonly rowsTop: number;
  readonly headBottom: number;
  readonly viewBottom: number;
}

export function useRowDrag(drag: RowDrag): TakeHold {
  const latest = useRef(drag);
  useEffect(() => {
    latest.current = drag;
  });
  const letGo = useRef<(() => void) | null>(null);
  // What is taken away while it is held, as by an undo, must leave no ear behind.
  useEffect(() => () => letGo.current?.(), []);

  return (event) => {
    const element = event.currentTarget;
    const scroller = element.closest<HTMLElement>('.bench');
    const body = element.closest<HTMLElement>('.bench-body');
    const head = scroller?.querySelector<HTMLElement>('.bench-head');
    if (scroller === null || body === null || head === null || head === undefined) throw new Error('What is dragged along the rows must stand on the bench.');
    letGo.current?.();
    const measure = (): Edges => {
      const viewTop = scroller.getBoundingClientRect().top;
      return { rowsTop: body.getBoundingClientRect().top, headBottom: head.getBoundingClientRect().bottom, viewBottom: viewTop + scroller.clientHeight };
    };
    const { pointerId, clientY: startY } = event;
    let pointerY = startY;
    let asked = 0;
    let formerMs = event.timeStamp;
    let duePx = 0;
    let placed = Number.NaN;
    // Measured when something moves them, not in every frame: asking makes the browser lay the page out, in the middle of what changes it.
    let edges = measure();
    let stale = false;
    const look = (): void => { stale = true; };
    const now = (): Edges => {
      if (stale) edges = measure();
      stale = false;
      return edges;
    };
    const place = (): void => {
      const yPx = pointerY - now().rowsTop;
      if (yPx === placed) return;
      placed = yPx;
      latest.current.move(yPx);
    };
    const scroll = (nowMs: number): void => {
      const { headBottom, viewBottom } = now();
      const speed = edgeSpeed(pointerY, headBottom, viewBottom);
      const elapsedMs = Math.max(0, Math.min(LONGEST_FRAME_MS, nowMs - formerMs));
      formerMs = nowMs;
      // What was taken hold of near an edge does not run away before it is drawn further that way.
      duePx = speed * (pointerY - startY) > 0 ? duePx + (speed * elapsedMs) / 1000 : 0;
      const byPx = Math.trunc(duePx);
      if (byPx !== 0) {
        scroller.scrollTop += byPx;
        look();
      }
      duePx -= byPx;
      // Rows also go along when the sheet becomes shorter or is turned by a wheel.
      if (!Number.isNaN(placed)) place();
      asked = requestAnimationFrame(scroll);
    };
    const onMove = (move: globalThis.PointerEvent): void => {
      if (move.pointerId !== pointerId) return;
      pointerY = move.clientY;
      place();
    };
    const stop = (): void => {
      cancelAnimationFrame(asked);
      resized.disconnect();
      scroller.removeEventListener('scroll', look);
      scroller.removeAttribute(HELD);
      window.removeEventListener('keydown', onKey, true);
      element.removeEventListener('pointermove', onMove);
      element.removeEventListener('pointerup', onUp);
      element.removeEventListener('pointercancel', onCancel);
      if (element.hasPointerCapture(pointerId)) element.releasePointerCapture(pointerId);
      letGo.current = null;
    };
    const onUp = (up: globalThis.PointerEvent): void => {
      if (up.pointerId !== pointerId) return;
      stop();
      latest.current.end();
    };
    const onCancel = (cancelled: globalThis.PointerEvent): void => {
      if (cancelled.pointerId !== pointerId) return;
      stop();
      latest.current.cancel();
    };
    const onKey = (key: KeyboardEvent): void => {
      if (key.key !== 'Escape') return;
      key.preventDefault();
      key.stopPropagation();
      stop();
      latest.current.cancel();
    };
    const resized = new ResizeObserver(look);
    for (const part of [scroller, head, body]) resized.observe(part);
    scroller.addEventListener('scroll', look, { passive: true });
    letGo.current = stop;
    scroller.setAttribute(HELD, '');
    element.setPointerCapture(pointerId);
    element.addEventListener('pointermove', onMove);
    element.addEventListener('pointerup', onUp);
    element.addEventListener('pointercancel', onCancel);
    window.addEventListener('keydown', onKey, true);
    asked = requestAnimationFrame(scroll);
  };
}
