/** The curves and bars of the chosen joints on the rows of the ladder. */
import { type ReactElement, useCallback, useRef } from 'react';
import { angleColumn, drawAngleColumn } from '../../../charts/angleColumn.ts';
import { figure, jointWords } from '../../../charts/figures.ts';
import { drawIncrementColumn, incrementColumn } from '../../../charts/incrementColumn.ts';
import { useBenchRows } from '../../ladder/benchContext.ts';
import { useDrawing } from '../../look/useDrawing.ts';
import { columnWidths, type ColumnWidths } from './columnWidths.ts';
import { RAIL_PX } from './rail/Rail.tsx';
import { useSpanStripPx } from './span/SpanStrip.tsx';
import type { JointColumn } from './useColumns.ts';

export function JointColumns({ columns }: { readonly columns: readonly JointColumn[] }): ReactElement {
  const { viewWidthPx, layout } = useBenchRows();
  const stripPx = useSpanStripPx();
  const widths = columnWidths(viewWidthPx - layout.widthPx - RAIL_PX - stripPx, columns.length);
  return (
    <div className="joint-columns" data-rows="charts">
      {columns.map((column) => <Column key={column.name} column={column} widths={widths} />)}
      {columns.length === 0 ? <p className="hint">No joint is chosen. Choose some under “Joints”.</p> : null}
    </div>
  );
}

function Column({ column, widths }: { readonly column: JointColumn; readonly widths: ColumnWidths }): ReactElement {
  const { rows, window } = useBenchRows();
  const angle = useRef<SVGSVGElement>(null);
  const bars = useRef<SVGSVGElement>(null);
  const drawAngle = useCallback(() => {
    if (angle.current === null) return;
    const seen = angleColumn(rows, window, widths.anglePx, column.angleDomain, column.angle, column.curve);
    drawAngleColumn(angle.current, seen, `angle-${column.name}`);
  }, [rows, window, widths.anglePx, column]);
  const drawBars = useCallback(() => {
    if (bars.current === null) return;
    const seen = incrementColumn(rows, window, widths.incrementPx, column.incrementDomain, column.increment);
    drawIncrementColumn(bars.current, seen, `turn-${column.name}`);
  }, [rows, window, widths.incrementPx, column]);
  useDrawing(drawAngle, rows, window, widths.anglePx);
  useDrawing(drawBars, rows, window, widths.incrementPx);
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
