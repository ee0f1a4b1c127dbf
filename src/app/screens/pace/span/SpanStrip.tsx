/** The span of steps that limbs are compared over and that is played, on the rows: drawn with the pointer, its ends moved by pointer or keys. */
import { type KeyboardEvent, type PointerEvent, type ReactElement, useRef } from 'react';
import { useStore } from 'zustand';
import type { Plan } from '../../../../plan/plan.ts';
import { useBenchRows } from '../../../ladder/benchContext.ts';
import { useRowDrag } from '../../../ladder/useRowDrag.ts';
import { paceView } from '../../../state/paceView.ts';
import { RAIL_PX } from '../rail/Rail.tsx';
import { END_PX, endPlaces, spanBetween, spanWithin, type StepSpan } from './spanEnds.ts';

/** Width of the strip, px. */
export const STRIP_PX = 48;

/** Width that the strip takes beside the rail: none where nothing on the screen goes by the span. */
export function useSpanStripPx(): number {
  return useStore(paceView, ({ view, panel }) => view === 'limbs' || view === 'moves' || panel === 'leads' || panel === 'play') ? STRIP_PX : 0;
}

export function SpanHead(): ReactElement | null {
  const shown = useSpanStripPx() > 0;
  return shown ? <div className="span-head" style={{ width: STRIP_PX }} title="Drag over the rows here: what is compared and played">span</div> : null;
}

export function SpanStrip({ plan }: { readonly plan: Plan }): ReactElement | null {
  const { rows } = useBenchRows();
  const shown = useSpanStripPx() > 0;
  const marked = spanWithin(useStore(paceView, (s) => s.span), plan.stepCount);
  const span: StepSpan = marked ?? [0, plan.stepCount - 1];
  /** The end that stays while the other is dragged, and the span as it was. */
  const held = useRef<{ readonly stays: number; readonly before: StepSpan | null; readonly offsetPx: number } | null>(null);
  const takeHold = useRowDrag({
    move: (yPx) => {
      if (held.current === null) return;
      const next = spanBetween(held.current.stays, rows.indexAt(yPx - held.current.offsetPx));
      const now = paceView.getState().span;
      if (now?.[0] !== next[0] || now[1] !== next[1]) paceView.setState({ span: next });
    },
    end: () => { held.current = null; },
    cancel: () => {
      if (held.current !== null) paceView.setState({ span: held.current.before });
      held.current = null;
    },
  });
  if (!shown || plan.stepCount === 0) return null;

  const begin = (event: PointerEvent<HTMLElement>, stays: number | null, edgeY: number | null): void => {
    event.stopPropagation();
    if (event.button !== 0) return;
    const yPx = event.clientY - event.currentTarget.closest('.pace-rows')!.getBoundingClientRect().top;
    held.current = { stays: stays ?? rows.indexAt(yPx), before: paceView.getState().span, offsetPx: edgeY === null ? 0 : yPx - edgeY };
    // The play panel goes by the span as well.
    if (paceView.getState().panel !== 'play') paceView.setState({ panel: 'leads' });
    takeHold(event);
  };
  const { fromY, toY } = endPlaces(span, rows.rowPx);
  return (
    <>
      {marked === null ? null : <div className="span-light" style={{ left: RAIL_PX, top: rows.top(span[0]), height: rows.top(span[1]) + rows.rowPx - rows.top(span[0]) }} aria-hidden="true" />}
      <div className="span-strip" style={{ width: STRIP_PX, height: rows.heightPx }} onPointerDown={(event) => begin(event, null, null)}>
        <div className={marked === null ? 'span-all' : 'span-chosen'} style={{ top: rows.top(span[0]), height: rows.top(span[1]) + rows.rowPx - rows.top(span[0]) }} />
        <SpanEnd words="Span from step" step={span[0]} least={0} most={span[1]} topPx={fromY} onTake={(event) => begin(event, span[1], rows.centre(span[0]))} onStep={(step) => paceView.setState({ span: [step, span[1]] })} />
        <SpanEnd words="Span to step" step={span[1]} least={span[0]} most={plan.stepCount - 1} topPx={toY} last onTake={(event) => begin(event, span[0], rows.centre(span[1]))} onStep={(step) => paceView.setState({ span: [span[0], step] })} />
      </div>
    </>
  );
}

interface SpanEndProps {
  readonly words: string;
  /** Steps from 0. */
  readonly step: number;
  readonly least: number;
  readonly most: number;
  readonly topPx: number;
  readonly last?: boolean;
  readonly onTake: (event: PointerEvent<HTMLElement>) => void;
  readonly onStep: (step: number) => void;
}

const TEN = 10;

function SpanEnd({ words, step, least, most, topPx, last = false, onTake, onStep }: SpanEndProps): ReactElement {
  const onKeyDown = (event: KeyboardEvent): void => {
    const by = event.shiftKey ? TEN : 1;
    const next = { ArrowUp: step - by, ArrowDown: step + by, PageUp: step - TEN, PageDown: step + TEN, Home: least, End: most }[event.key];
    if (next === undefined || event.ctrlKey || event.metaKey || event.altKey || (event.shiftKey && event.key.startsWith('Page'))) return;
    event.preventDefault();
    event.stopPropagation();
    onStep(Math.max(least, Math.min(most, next)));
  };
  return (
    <div
      className={`span-end${last ? ' span-end-last' : ''}`}
      style={{ top: topPx, height: END_PX }}
      role="slider"
      tabIndex={0}
      aria-label={words}
      aria-orientation="vertical"
      aria-valuemin={least + 1}
      aria-valuemax={most + 1}
      aria-valuenow={step + 1}
      title="Drag, or move by the arrow keys, with Shift by ten; Escape lets it go where it was"
      onPointerDown={onTake}
      onKeyDown={onKeyDown}
    >
      {step + 1}
    </div>
  );
}
