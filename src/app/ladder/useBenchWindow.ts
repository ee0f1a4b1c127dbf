/** Follows scrolling and resizing, and says which rows to have drawn. Renders again only when that block of rows changes. */
import { type RefObject, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { NARROW_LADDER, WIDE_LADDER } from '../../charts/ladder.ts';
import { rowScale, type RowWindow, windowOfRows } from '../../charts/rowScale.ts';
import { playhead } from '../state/playhead.ts';
import type { BenchRows } from './benchContext.ts';

/** Below this window width the ladder is narrow and the views stack. */
export const NARROW_BELOW_PX = 900;

/**
 * @param scroller the element that scrolls
 * @param headPx height of the head that stays on top of the rows
 */
export function useBenchWindow(scroller: RefObject<HTMLDivElement | null>, count: number, rowPx: number, headPx: number): BenchRows {
  const [view, setView] = useState({ width: 0, height: 0, pageWidth: 1440 });
  const rows = useMemo(() => rowScale(count, rowPx), [count, rowPx]);
  const [drawn, setDrawn] = useState<RowWindow>({ first: 0, last: -1 });
  const formerRowPx = useRef(rowPx);

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
  }, [scroller]);

  // Another row height keeps the playhead's row where it was in the view, or the top row if the playhead is out of sight.
  useLayoutEffect(() => {
    const element = scroller.current;
    const former = formerRowPx.current;
    formerRowPx.current = rowPx;
    if (element === null || former === rowPx) return;
    const rowsHeight = element.clientHeight - headPx;
    const at = playhead.getState().step * former - element.scrollTop;
    const anchor = at >= 0 && at <= rowsHeight ? playhead.getState().step : Math.floor(element.scrollTop / former);
    element.scrollTop = anchor * rowPx - (anchor * former - element.scrollTop);
  }, [rowPx, scroller, headPx]);

  useLayoutEffect(() => {
    const element = scroller.current;
    if (element === null) return;
    const look = (): void => {
      const block = Math.max(8, Math.ceil(element.clientHeight / rows.rowPx / 2));
      const next = windowOfRows(rows, element.scrollTop, element.clientHeight, block);
      setDrawn((w) => (w.first === next.first && w.last === next.last ? w : next));
    };
    look();
    element.addEventListener('scroll', look, { passive: true });
    return () => element.removeEventListener('scroll', look);
  }, [rows, scroller, view]);

  return useMemo(
    () => ({
      rows,
      // Until the effect has seen a new plan, the window may speak of rows that are gone.
      window: { first: Math.min(drawn.first, Math.max(0, rows.count - 1)), last: Math.min(drawn.last, rows.count - 1) },
      layout: view.pageWidth < NARROW_BELOW_PX ? NARROW_LADDER : WIDE_LADDER,
      viewWidthPx: view.width,
      viewHeightPx: view.height,
    }),
    [rows, drawn, view],
  );
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
