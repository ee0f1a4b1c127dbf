/**
 * The sheet on the bench: the ladder at the left and, beside it, whatever the screen shows of the same rows. It is the one
 * thing that scrolls, so that rows cannot drift apart, and it stays in place when the screen changes.
 */
import { type CSSProperties, type PointerEvent, type ReactElement, type ReactNode, useCallback, useEffect, useRef } from 'react';
import { exposureSpan } from '../../charts/figures.ts';
import { TICK_ROW_PX } from '../../charts/ladder.ts';
import { nextRowPx, scrollToShow } from '../../charts/rowScale.ts';
import { toggleShot } from '../state/bookStore.ts';
import { goToStep, setRowPx } from '../state/commands.ts';
import { paintWithPlayhead } from '../state/playhead.ts';
import { session } from '../state/session.ts';
import { useSession } from '../state/use.ts';
import { BenchContext } from './benchContext.ts';
import { Ladder } from './Ladder.tsx';
import { LadderHead } from './LadderHead.tsx';
import { HELD } from './useRowDrag.ts';
import { useBenchWindow, useZoomWheel } from './useBenchWindow.ts';

/** Height of the head above the rows, px; the same on every screen, so that the ladder does not jump. */
export const HEAD_PX = 144;
/** Rows kept in sight before and after the playhead. */
const MARGIN_PX = 72;

export interface BenchProps {
  /** Head of the screen's own columns. */
  readonly head: ReactNode;
  /** The screen's columns; what shows rows is marked with `data-rows`. */
  readonly children: ReactNode;
  /** Whether the playhead's row runs across the screen's columns as well. */
  readonly across: boolean;
}

export function Bench({ head, children, across }: BenchProps): ReactElement {
  const lit = useRef<HTMLDivElement>(null);
  const tab = useRef<HTMLElement>(null);
  const tabExposures = useRef<HTMLSpanElement>(null);
  const count = useSession((s) => s.plan?.stepCount ?? 0);
  const rowPx = useSession((s) => s.rowPx);
  const { scroller, bench } = useBenchWindow(count, rowPx, HEAD_PX);
  const zoom = useCallback((direction: 1 | -1) => setRowPx(nextRowPx(session.getState().rowPx, direction)), []);
  useZoomWheel(scroller, zoom);

  const { rows } = bench;
  const low = rows.rowPx < TICK_ROW_PX;
  // Rows are scrolled to the playhead when it moves or they change their height, not when the plan becomes another: an edit leaves them in place.
  const shown = useRef({ step: -1, rowPx: 0 });
  useEffect(() => {
    return paintWithPlayhead(({ step }) => {
      const element = scroller.current;
      if (rows.count === 0) shown.current.step = -1;
      if (lit.current === null || tab.current === null || element === null || rows.count === 0) return;
      const index = Math.min(step, rows.count - 1);
      lit.current.style.transform = `translateY(${rows.top(index)}px)`;
      tab.current.textContent = String(index + 1);
      const { plan } = session.getState();
      if (tabExposures.current !== null && plan !== null) {
        tabExposures.current.textContent = exposureSpan(plan.exposure[index] ?? 0, plan.holds[index] ?? plan.on);
      }
      if (index !== shown.current.step || rows.rowPx !== shown.current.rowPx) {
        shown.current = { step: index, rowPx: rows.rowPx };
        // Retiming moves the playhead along with its moment: that must not draw the rows from under what retimes.
        if (element.hasAttribute(HELD)) return;
        const next = scrollToShow(rows, index, element.scrollTop, element.clientHeight - HEAD_PX, MARGIN_PX);
        if (next !== element.scrollTop) element.scrollTo(element.scrollLeft, next);
      }
    });
  }, [rows, low, scroller]);

  const stepUnder = (event: PointerEvent<HTMLElement>): number => {
    const body = event.currentTarget.getBoundingClientRect();
    return rows.indexAt(event.clientY - body.top);
  };
  const onPointerDown = (event: PointerEvent<HTMLElement>): void => {
    const target = event.target as Element;
    const place = target.closest<HTMLElement>('[data-rows]');
    if (event.button !== 0 || place === null || rows.count === 0) return;
    const index = stepUnder(event);
    const inLadder = place.dataset['rows'] === 'ladder';
    const x = event.clientX - place.getBoundingClientRect().left;
    if (inLadder && rows.rowPx >= TICK_ROW_PX && x > bench.layout.shotX - 16) {
      toggleShot(index + 1);
      return;
    }
    goToStep(index);
    if (place.dataset['rows'] !== 'table') event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>): void => {
    if (event.currentTarget.hasPointerCapture(event.pointerId)) goToStep(stepUnder(event));
  };

  return (
    <BenchContext value={bench}>
      <div className="bench" ref={scroller} style={{ '--head': `${HEAD_PX}px`, '--ladder': `${bench.layout.widthPx}px`, '--row': `${rows.rowPx}px`, '--tab-wide': `${bench.layout.exposureX}px`, '--view': `${bench.viewHeightPx}px` } as CSSProperties}>
        <div className="bench-head">
          <LadderHead layout={bench.layout} />
          <div className="bench-head-rest">{head}</div>
        </div>
        <div
          className="bench-body"
          style={{ height: rows.heightPx }}
          onPointerDown={onPointerDown}
          onPointerMove={onPointerMove}
        >
          <Ladder />
          <div className="bench-rest">{children}</div>
          <div className={`lit-row${across ? '' : ' lit-row-short'}${low ? ' lit-row-low' : ''}`} ref={lit} hidden={rows.count === 0} aria-hidden="true">
            <div className="lit-tab">
              <b ref={tab} />
              {low ? <span ref={tabExposures} /> : null}
            </div>
          </div>
        </div>
      </div>
    </BenchContext>
  );
}
