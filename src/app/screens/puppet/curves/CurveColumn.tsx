/**
 * The curve on the rows of the ladder. A key is dragged along the rows and across the degrees; a double click sets a new one;
 * anywhere else a click moves the playhead, as on every chart.
 */
import { type PointerEvent, type MouseEvent, type ReactElement, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { COLUMN_PAD_PX, degreeTicks, drawDegreeAxis } from '../../../../charts/degreeAxis.ts';
import { jointWords } from '../../../../charts/figures.ts';
import { degreeScale, drawHandCurve, handCurve, handDomain, keyAt } from '../../../../charts/handCurve.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { curveValues } from '../../../../puppet/handCurve.ts';
import { useBenchRows } from '../../../ladder/benchContext.ts';
import { puppetView } from '../../../puppet3d/puppetView.ts';
import { rowOfTime, timeOfRow } from '../../../state/takeRows.ts';
import { timeOfStep } from '../sources/StepField.tsx';
import { addKey, changeKey, type Curve } from './useCurve.ts';

export const CURVE_PX = 230;
const AXIS_PX = 26;
/** How near a finger must come to a key, px. */
const REACH_PX = 14;
/** Dragging goes in half degrees; finer values are typed. */
const DRAG_DEG = 0.5;

export function CurveColumn({ plan, curve }: { readonly plan: Plan; readonly curve: Curve }): ReactElement {
  const { rows, window } = useBenchRows();
  const svg = useRef<SVGSVGElement>(null);
  const axis = useRef<SVGSVGElement>(null);
  const [held, setHeld] = useState<{ readonly key: number; readonly domain: readonly [number, number] } | null>(null);
  const { keys, limitsDeg, picked } = curve;
  const input = useMemo(() => ({
    keys: keys.map((k) => ({ row: rowOfTime(plan, k.timeS), deg: k.valueDeg })),
    at: keys.length === 0 ? null : (at: readonly number[]) => curveValues(keys, at.map((row) => timeOfRow(plan, row))),
    limitsDeg: limitsDeg === null ? null : { min: limitsDeg[0], max: limitsDeg[1] },
    picked,
  }), [plan, keys, limitsDeg, picked]);
  // While a key is dragged the scale stands still, or the key would run away from the finger.
  const domain = useMemo(() => held?.domain ?? handDomain(input), [held, input]);
  const drawn = useMemo(() => handCurve(rows, window, CURVE_PX, domain, input), [rows, window, domain, input]);
  useLayoutEffect(() => {
    if (svg.current !== null) drawHandCurve(svg.current, drawn, rows, 'hand-curve');
    if (axis.current === null) return;
    const share = (deg: number): number => (deg - domain[0]) / (domain[1] - domain[0]);
    drawDegreeAxis(axis.current, degreeTicks(domain, CURVE_PX, (deg) => COLUMN_PAD_PX + share(deg) * (CURVE_PX - 2 * COLUMN_PAD_PX)), AXIS_PX);
  }, [drawn, domain, rows]);

  const place = (event: MouseEvent<SVGSVGElement>): { x: number; y: number } => {
    const box = event.currentTarget.getBoundingClientRect();
    return { x: event.clientX - box.left, y: event.clientY - box.top };
  };
  const degAt = (x: number): number => Math.round(degreeScale(domain, CURVE_PX).deg(x) / DRAG_DEG) * DRAG_DEG;
  const onPointerDown = (event: PointerEvent<SVGSVGElement>): void => {
    const { x, y } = place(event);
    const key = keyAt(drawn, x, y, REACH_PX);
    if (key < 0 || event.button !== 0) return;
    // The bench would move the playhead.
    event.stopPropagation();
    event.currentTarget.setPointerCapture(event.pointerId);
    setHeld({ key, domain });
    puppetView.setState({ picked: curve.joint, curveAxis: curve.axis, curveKey: key });
  };
  const onPointerMove = (event: PointerEvent<SVGSVGElement>): void => {
    if (held === null) return;
    event.stopPropagation();
    const { x, y } = place(event);
    changeKey(curve, held.key, { timeS: timeOfStep(plan, rows.indexAt(y)), valueDeg: degAt(x) });
  };
  const end = (): void => setHeld(null);
  const onDoubleClick = (event: MouseEvent<SVGSVGElement>): void => {
    const { x, y } = place(event);
    if (keyAt(drawn, x, y, REACH_PX) < 0) addKey(curve, { timeS: timeOfStep(plan, rows.indexAt(y)), valueDeg: degAt(x), ease: 'smooth' });
  };
  return (
    <div className="curve-column" style={{ width: CURVE_PX }}>
      <svg ref={axis} className="axis" width={CURVE_PX} height={AXIS_PX} aria-hidden="true" />
      <svg
        ref={svg}
        data-rows="charts"
        className="hand-curve"
        style={{ marginTop: -AXIS_PX }}
        width={CURVE_PX}
        height={rows.heightPx}
        role="img"
        aria-label={`Hand curve of the ${jointWords(curve.joint)} over the steps, ${keys.length} keys; the list beside it has them as figures`}
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={end}
        onPointerCancel={end}
        onDoubleClick={onDoubleClick}
      />
    </div>
  );
}
