/** The curves and bars of the chosen joints on the rows of the ladder. */
import { type ReactElement, useCallback, useRef } from 'react';
import { angleColumn, drawAngleColumn } from '../../../charts/angleColumn.ts';
import { figure, jointWords } from '../../../charts/figures.ts';
import { drawIncrementColumn, incrementColumn } from '../../../charts/incrementColumn.ts';
import { useBenchRows } from '../../ladder/benchContext.ts';
import { SIDE_STEP_PX } from '../../ladder/useBenchWindow.ts';
import { useDrawing } from '../../look/useDrawing.ts';
import { columnWidths, type ColumnWidths } from './columnWidths.ts';
import { RAIL_PX } from './rail/Rail.tsx';
import { useSpanStripPx } from './span/SpanStrip.tsx';
import type { JointColumn } from './useColumns.ts';

export function JointColumns({ columns }: { readonly columns: readonly JointColumn[] }): ReactElement {
  const { viewWidthPx, layout, leftPx } = useBenchRows();
  const stripPx = useSpanStripPx();
  const widths = columnWidths(viewWidthPx - layout.widthPx - RAIL_PX - stripPx, columns.length);
  const eachPx = widths.anglePx + widths.incrementPx + widths.gapPx;
  // Columns far out of sight sideways stay empty until they come near.
  const isNear = (k: number): boolean => {
    const fromPx = RAIL_PX + stripPx + k * eachPx;
    return fromPx + eachPx >= leftPx - SIDE_STEP_PX && fromPx <= leftPx + viewWidthPx - layout.widthPx + 2 * SIDE_STEP_PX;
  };
  return (
    <div className="joint-columns" data-rows="charts">
      {columns.map((column, k) => <Column key={column.name} column={column} widths={widths} near={isNear(k)} />)}
      {columns.length === 0 ? <p className="hint">No joint is chosen. Choose some under “Joints”.</p> : null}
    </div>
  );
}

function Column({ column, widths, near }: { readonly column: JointColumn; readonly widths: ColumnWidths; readonly near: boolean }): ReactElement {
  const { rows, window } = useBenchRows();
  const angle = useRef<SVGSVGElement>(null);
  const bars = useRef<SVGSVGElement>(null);
  const drawAngle = useCallback(() => {
    if (angle.current === null || !near) return;
    const seen = angleColumn(rows, window, widths.anglePx, column.angleDomain, column.angle, column.curve);
    drawAngleColumn(angle.current, seen, `angle-${column.name}`);
  }, [rows, window, widths.anglePx, column, near]);
  const drawBars = useCallback(() => {
    if (bars.current === null || !near) return;
    const seen = incrementColumn(rows, window, widths.incrementPx, column.incrementDomain, column.increment);
    drawIncrementColumn(bars.current, seen, `turn-${column.name}`);
  }, [rows, window, widths.incrementPx, column, near]);
  useDrawing(drawAngle, rows, window, widths.anglePx, near);
  useDrawing(drawBars, rows, window, widths.incrementPx, near);
  const [low, high] = column.angleDomain;
  return (
    <div className="joint-column" style={{ marginRight: widths.gapPx }}>
      <svg
        ref={angle}
        className="angle-column"
        width={widths.anglePx}
        height={rows.heightPx}
        role="img"
        aria-label={`Angle of the ${jointWords(column.name)}, ${figure(low, 0)} to ${figure(high, 0)} degrees, over the steps; the sheet has the figures`}
      />
      <svg
        ref={bars}
        className="increment-column"
        width={widths.incrementPx}
        height={rows.heightPx}
        role="img"
        aria-label={`Turn of the ${jointWords(column.name)} at each step, at most ${figure(column.incrementDomain[1], 1)} degrees`}
      />
    </div>
  );
}
