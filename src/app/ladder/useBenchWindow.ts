/** Follows scrolling and resizing, and says which rows to have drawn. Renders again only when that block of rows changes. */
import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { NARROW_LADDER, WIDE_LADDER } from '../../charts/ladder.ts';
import { rowScale, type RowWindow, scrollAfterZoom, windowOfRows } from '../../charts/rowScale.ts';
import { playhead } from '../state/playhead.ts';
import type { BenchRows } from './benchContext.ts';

/** Below this window width the ladder is narrow and the views stack. */
export const NARROW_BELOW_PX = 900;

/** Steps in which scrolling sideways is followed, px. */
export const SIDE_STEP_PX = 240;

/**
 * @param headPx height of the head that stays on top of the rows
 * @returns `scroller`, to be given to the element that scrolls
 */
export function useBenchWindow(count: number, rowPx: number, headPx: number): { readonly scroller: RefObject<HTMLDivElement | null>; readonly bench: BenchRows } {
  const scroller = useRef<HTMLDivElement>(null);
  const [view, setView] = useState({ width: 0, height: 0, pageWidth: 1440 });
  const rows = useMemo(() => rowScale(count, rowPx), [count, rowPx]);
  const [leftPx, setLeftPx] = useState(0);
  const [drawn, setDrawn] = useState<RowWindow>({ first: 0, last: -1 });

  useLayoutEffect(() => {
    const element = scroller.current;
    if (element === null) return;
    const measure = (): void =>
      setView((v) => {
        const next = { width: element.clientWidth, height: element.clientHeight, pageWidth: window.innerWidth };
        return v.width === next.width && v.height === next.height && v.pageWidth === next.pageWidth ? v : next;
      });
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);

  // The place before the height changed: afterwards the browser may already have drawn the scroll in to the shorter sheet.
  const last = useRef({ rowPx, scrollPx: 0 });
  useLayoutEffect(() => {
    const element = scroller.current;
    const { rowPx: formerPx, scrollPx } = last.current;
    last.current = { rowPx, scrollPx };
    if (element === null || formerPx === rowPx) return;
    element.scrollTo(element.scrollLeft, scrollAfterZoom(formerPx, rowPx, playhead.getState().step, scrollPx, element.clientHeight - headPx));
  }, [rowPx, headPx]);

  useLayoutEffect(() => {
    const element = scroller.current;
    if (element === null) return;
    const look = (): void => {
      last.current = { rowPx: last.current.rowPx, scrollPx: element.scrollTop };
      const block = Math.max(8, Math.ceil(element.clientHeight / rows.rowPx / 2));
      const next = windowOfRows(rows, element.scrollTop, element.clientHeight, block);
      setDrawn((w) => (w.first === next.first && w.last === next.last ? w : next));
      setLeftPx(Math.floor(element.scrollLeft / SIDE_STEP_PX) * SIDE_STEP_PX);
    };
    look();
    element.addEventListener('scroll', look, { passive: true });
    return () => element.removeEventListener('scroll', look);
  }, [rows, view]);

  const bench = useMemo(
    () => ({
      rows,
      // Until the effect has seen a new plan, the window may speak of rows that are gone.
      window: { first: Math.min(drawn.first, Math.max(0, rows.count - 1)), last: Math.min(drawn.last, rows.count - 1) },
      leftPx,
      layout: view.pageWidth < NARROW_BELOW_PX ? NARROW_LADDER : WIDE_LADDER,
      viewWidthPx: view.width,
      viewHeightPx: view.height,
    }),
    [rows, drawn, view, leftPx],
  );
  return { scroller, bench };
}

/** Calls back with Ctrl+wheel turns over an element, up positive; the page's own zoom is kept from acting. */
export function useZoomWheel(scroller: RefObject<HTMLDivElement | null>, onZoom: (direction: 1 | -1) => void): void {
  useEffect(() => {
    const element = scroller.current;
    if (element === null) return;
    const onWheel = (event: WheelEvent): void => {
      if (!event.ctrlKey || event.deltaY === 0) return;
      event.preventDefault();
      onZoom(event.deltaY < 0 ? 1 : -1);
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, [scroller, onZoom]);
}
