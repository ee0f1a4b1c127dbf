/** How fast each limb goes, along the rows. */
import { type ReactElement, useCallback, useEffect, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import { drawDegreeAxis } from '../../../../charts/degreeAxis.ts';
import { figure } from '../../../../charts/figures.ts';
import { drawLimbRates, limbValue, RATE_UNIT_WORDS, rateScale, type RateUnit } from '../../../../charts/limbs/limbRates.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { type Limb, LIMBS } from '../../../../timing/moments/moments.ts';
import { Choice } from '../../../fields/Choice.tsx';
import { useBenchRows } from '../../../ladder/benchContext.ts';
import { useDrawing } from '../../../look/useDrawing.ts';
import { paceView } from '../../../state/paceView.ts';
import { RAIL_PX } from '../rail/Rail.tsx';
import { useSpanStripPx } from '../span/SpanStrip.tsx';

const UNITS: readonly RateUnit[] = ['deg', 'mm', 'heights'];
const LEAST_PX = 380;
const AXIS_PX = 26;

function useShown(plan: Plan): readonly Limb[] {
  const hidden = useStore(paceView, (s) => s.hidden);
  return useMemo(() => LIMBS.filter((limb) => !hidden.includes(limb) && LIMBS.some((one) => one === limb && hasRates(plan, limb))), [plan, hidden]);
}

function hasRates({ limbRates, stepCount }: Plan, limb: Limb): boolean {
  for (let s = 0; s < stepCount; s++) if (Number.isFinite(limbValue(limbRates, 'deg', limb, s))) return true;
  return false;
}

function useChartPx(): number {
  const { viewWidthPx, layout } = useBenchRows();
  const stripPx = useSpanStripPx();
  return Math.max(LEAST_PX, viewWidthPx - layout.widthPx - RAIL_PX - stripPx - 12);
}

export function LimbsHead({ plan }: { readonly plan: Plan }): ReactElement {
  const unit = useStore(paceView, (s) => s.unit);
  const shown = useShown(plan);
  const widthPx = useChartPx();
  const axis = useRef<SVGSVGElement>(null);
  useEffect(() => {
    if (axis.current === null) return;
    const x = rateScale(plan.limbRates, unit, shown, plan.stepCount, widthPx);
    drawDegreeAxis(axis.current, x.ticks(5).map((value) => ({ x: x(value), label: figure(value, value % 1 === 0 ? 0 : 1), anchor: 'middle' as const })), AXIS_PX);
  }, [plan, unit, shown, widthPx]);
  return (
    <div className="limbs-head" style={{ width: widthPx }}>
      <div className="limbs-choose">
        <Choice<RateUnit> label="Speed in" value={unit} options={UNITS.map((value) => ({ value, words: RATE_UNIT_WORDS[value] }))} onChoose={(value) => paceView.setState({ unit: value })} />
      </div>
      <svg ref={axis} className="axis" width={widthPx} height={AXIS_PX} aria-hidden="true" />
    </div>
  );
}

export function LimbsBody({ plan }: { readonly plan: Plan }): ReactElement {
  const { rows, window } = useBenchRows();
  const unit = useStore(paceView, (s) => s.unit);
  const shown = useShown(plan);
  const widthPx = useChartPx();
  const svg = useRef<SVGSVGElement>(null);
  const draw = useCallback(() => {
    if (svg.current !== null) drawLimbRates(svg.current, rows, window, { rates: plan.limbRates, unit, limbs: shown, steps: plan.stepCount, widthPx });
  }, [plan, rows, window, unit, shown, widthPx]);
  useDrawing(draw, rows, window, widthPx, unit);
  return (
    <div className="limb-rates" data-rows="charts"><svg ref={svg} width={widthPx} height={rows.heightPx} role="img" aria-label={`Speed of each limb at each step, ${RATE_UNIT_WORDS[unit]}: left whole, right dashed, trunk dotted; the Leads panel has the figures`} /></div>
  );
}
