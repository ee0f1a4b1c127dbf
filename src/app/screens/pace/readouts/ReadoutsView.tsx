/** The angles of a joint as anatomists name them, along the rows. They are the performer's own, before the puppet's limits and moves. */
import { type ReactElement, useCallback, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import { COLUMN_PAD_PX, degreeTicks, drawDegreeAxis } from '../../../../charts/degreeAxis.ts';
import { figure } from '../../../../charts/figures.ts';
import { drawReadoutColumn, readoutColumn, type ReadoutRows, readoutRows } from '../../../../charts/readouts/readoutColumn.ts';
import { READOUTS } from '../../../../motion/readouts/catalogue.ts';
import type { Readout } from '../../../../motion/readouts/readout.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { useBenchRows } from '../../../ladder/benchContext.ts';
import { useDrawing } from '../../../look/useDrawing.ts';
import { paceView } from '../../../state/paceView.ts';
import { paintWithPlayhead } from '../../../state/playhead.ts';
import { RAIL_PX } from '../rail/Rail.tsx';
import { useSpanStripPx } from '../span/SpanStrip.tsx';
import { readoutJointWords } from './ReadoutChooser.tsx';
import { useReadings } from './useReadings.ts';

const LEAST_PX = 184;
const MOST_PX = 300;
const GAP_PX = 18;
const AXIS_PX = 24;

export interface ReadoutOfJoint {
  readonly readout: Readout;
  readonly rows: ReadoutRows;
}

/** The readouts of the chosen joint; `null` until they are there. */
export function useReadoutColumns(plan: Plan): readonly ReadoutOfJoint[] | null {
  const joint = useStore(paceView, (s) => s.readOut);
  const readings = useReadings(plan, joint);
  return useMemo(() => readings?.readings.flatMap((reading) => {
    const readout = READOUTS.find(({ id }) => id === reading.id);
    return readout === undefined ? [] : [{ readout, rows: readoutRows(readings, reading, readout.from === 'inferred') }];
  }) ?? null, [readings]);
}

function useColumnPx(columns: number): number {
  const { viewWidthPx, layout } = useBenchRows();
  const room = viewWidthPx - layout.widthPx - RAIL_PX - useSpanStripPx() - GAP_PX;
  return Math.max(LEAST_PX, Math.min(MOST_PX, Math.floor(room / Math.max(1, columns)) - GAP_PX));
}

export function ReadoutsHead({ columns }: { readonly columns: readonly ReadoutOfJoint[] | null }): ReactElement {
  const widthPx = useColumnPx(columns?.length ?? 1);
  return (
    <div className="readout-heads">
      {columns?.map((column) => <ReadoutHead key={column.readout.id} column={column} widthPx={widthPx} />)}
    </div>
  );
}

function ReadoutHead({ column: { readout, rows }, widthPx }: { readonly column: ReadoutOfJoint; readonly widthPx: number }): ReactElement {
  const now = useRef<HTMLSpanElement>(null);
  const within = useRef<HTMLElement>(null);
  const axis = useRef<SVGSVGElement>(null);
  useEffect(() => paintWithPlayhead(({ step }) => {
    if (now.current === null || within.current === null) return;
    const known = rows.certainty(step) !== 'missing';
    const zone = known && rows.inZone(step);
    const error = rows.errorDeg(step);
    now.current.textContent = known ? `${zone ? '~' : ''}${figure(rows.values.value(step), 1)}°` : '–';
    within.current.textContent = zone ? 'can’t be told' : !known ? '' : Number.isFinite(error) ? `±${figure(error, 0)}°` : readout.from === 'inferred' ? 'not seen' : '± not known';
  }), [rows, readout]);
  useLayoutEffect(() => {
    const [low, high] = rows.domain;
    const place = (deg: number): number => COLUMN_PAD_PX + ((deg - low) / (high - low)) * (widthPx - 2 * COLUMN_PAD_PX);
    if (axis.current !== null) drawDegreeAxis(axis.current, degreeTicks(rows.domain, widthPx, place), AXIS_PX);
  }, [rows, widthPx]);
  return (
    <div className="readout-head" style={{ width: widthPx }} title={aboutReadout(readout)}>
      <strong>{readout.label}, °</strong>
      <p className="readout-now"><span ref={now} /> <small ref={within} /></p>
      <p className="readout-about">+ {readout.positive}. <cite>{readout.source}</cite></p>
      <svg ref={axis} className="axis" width={widthPx} height={AXIS_PX} aria-hidden="true" />
    </div>
  );
}

/** All that is to be known of a readout, in words. */
function aboutReadout({ positive, zone, from, isTurn, source }: Readout): string {
  const error = from === 'inferred' ? 'Not seen but inferred. ' : isTurn ? 'A turn about the bone itself: hardly shown while elbow or knee is straight. ' : '';
  return `In degrees; positive: ${positive}. Convention: ${source}. ${error}${zone === null ? '' : `Can’t be told: ${zone}.`}`.trim();
}

export function ReadoutsBody({ columns }: { readonly columns: readonly ReadoutOfJoint[] | null }): ReactElement {
  const widthPx = useColumnPx(columns?.length ?? 1);
  return (
    <div className="readout-columns" data-rows="charts">
      {columns === null ? <p className="hint" role="status">Reading …</p> : columns.map((column) => <ReadoutCurve key={column.readout.id} column={column} widthPx={widthPx} />)}
    </div>
  );
}

function ReadoutCurve({ column: { readout, rows: own }, widthPx }: { readonly column: ReadoutOfJoint; readonly widthPx: number }): ReactElement {
  const { rows, window } = useBenchRows();
  const svg = useRef<SVGSVGElement>(null);
  const draw = useCallback(() => {
    if (svg.current !== null) drawReadoutColumn(svg.current, readoutColumn(rows, window, widthPx, own), `readout-${readout.id.replace('.', '-')}`);
  }, [rows, window, widthPx, own, readout]);
  useDrawing(draw, rows, window, widthPx);
  const [low, high] = own.domain;
  return (
    <svg
      ref={svg}
      className="angle-column readout-column"
      width={widthPx}
      height={rows.heightPx}
      role="img"
      aria-label={`${readoutJointWords(readout.joint)}: ${readout.label}, ${figure(low, 0)} to ${figure(high, 0)} degrees, over the steps. ${aboutReadout(readout)}`}
    />
  );
}
