/** The margins on the rows of the ladder, and the figures of the playhead's step above them. */
import { type ReactElement, useCallback, useEffect, useRef } from 'react';
import { useStore } from 'zustand';
import { drawMarginColumn, marginTicks } from '../../../charts/poise/marginColumn.ts';
import { drawDegreeAxis } from '../../../charts/degreeAxis.ts';
import { signedFigure } from '../../../charts/figures.ts';
import type { Plan } from '../../../plan/plan.ts';
import { useBenchRows } from '../../ladder/benchContext.ts';
import { useDrawing } from '../../look/useDrawing.ts';
import { paintWithPlayhead } from '../../state/playhead.ts';
import { poiseView } from '../../state/poiseView.ts';
import { useBook } from '../../state/use.ts';

const LEAST_PX = 280;
const MOST_PX = 640;
const AXIS_PX = 26;

function useWidthPx(): number {
  const { viewWidthPx, layout } = useBenchRows();
  return Math.max(LEAST_PX, Math.min(MOST_PX, viewWidthPx - layout.widthPx - 24));
}

export function MarginHead({ plan }: { readonly plan: Plan }): ReactElement {
  const widthPx = useWidthPx();
  const wantedMm = useBook((b) => b.poise.marginMm);
  const stand = useRef<HTMLSpanElement>(null);
  const move = useRef<HTMLSpanElement>(null);
  const axis = useRef<SVGSVGElement>(null);
  useEffect(() => paintWithPlayhead(({ step }) => {
    const at = Math.min(step, plan.stepCount - 1);
    if (stand.current !== null) stand.current.textContent = signedFigure(plan.balance.standMm[at], 1);
    if (move.current !== null) move.current.textContent = signedFigure(plan.balance.moveMm[at], 1);
  }), [plan]);
  useEffect(() => {
    if (axis.current !== null) drawDegreeAxis(axis.current, marginTicks(plan.balance, wantedMm, widthPx).map(({ x, words }) => ({ x, label: words, anchor: 'middle' as const })), AXIS_PX);
  }, [plan, wantedMm, widthPx]);
  return (
    <div className="margin-head" style={{ width: widthPx }}>
      <dl>
        <div><dt><svg className="sample" width="30" height="10" aria-hidden="true"><path className="margin-stand" d="M0,5h30" /></svg> standing, mm</dt><dd ref={stand} /></div>
        <div><dt><svg className="sample" width="30" height="10" aria-hidden="true"><path className="margin-move" d="M0,5h30" /></svg> in motion, mm</dt><dd ref={move} /></div>
      </dl>
      <p className="margin-sides"><span>← outside its base</span><span>mm from the edge</span><span>inside →</span></p>
      <svg ref={axis} className="axis" width={widthPx} height={AXIS_PX} aria-hidden="true" />
    </div>
  );
}

export function MarginColumn({ plan }: { readonly plan: Plan }): ReactElement {
  const { rows, window } = useBenchRows();
  const widthPx = useWidthPx();
  const wantedMm = useBook((b) => b.poise.marginMm);
  const afterMm = useStore(poiseView, (s) => s.afterMm);
  const svg = useRef<SVGSVGElement>(null);
  const draw = useCallback(() => {
    if (svg.current !== null) drawMarginColumn(svg.current, rows, window, { balance: plan.balance, wantedMm, widthPx, afterMm }, 'margin');
  }, [plan, rows, window, wantedMm, widthPx, afterMm]);
  useDrawing(draw, rows, window, widthPx, wantedMm);
  return (
    <div className="margin-column" data-rows="charts">
      <svg ref={svg} width={widthPx} height={rows.heightPx} role="img" aria-label="Margin of balance at each step, millimetres inside the edge of the base of support: standing as a whole line, in motion dashed; the Verdict panel says the playhead’s step in words" />
    </div>
  );
}
