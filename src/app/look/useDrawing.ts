/** When a picture on the sheet is drawn: at once where its rows are new to the eye, in turn where only their content is. */
import { useLayoutEffect, useRef } from 'react';
import type { RowScale, RowWindow } from '../../charts/rowScale.ts';
import { drawInTurn } from './inTurn.ts';

/**
 * Calls `draw` whenever it is another function; memoise it.
 *
 * @param rows, window, sizes where it is drawn: while these stay as they are, a drawing can wait for its turn
 */
export function useDrawing(draw: () => void, rows: RowScale, window: RowWindow, ...sizes: readonly unknown[]): void {
  const place = useRef<readonly unknown[] | null>(null);
  const owner = useRef({});
  const placeNow = [rows, window.first, window.last, ...sizes];
  const latest = useRef(placeNow);
  useLayoutEffect(() => {
    latest.current = placeNow;
  });
  useLayoutEffect(() => {
    const former = place.current;
    place.current = latest.current;
    if (former === null || latest.current.some((part, i) => part !== former[i])) {
      draw();
      return undefined;
    }
    return drawInTurn(owner.current, draw);
  }, [draw]);
}
