/** Moves and pauses of all limbs side by side, and who starts first. */
import { type ReactElement, useCallback, useMemo, useRef } from 'react';
import { signedFigure } from '../../../../charts/figures.ts';
import { LIMB_WORDS } from '../../../../charts/moments/limbWords.ts';
import { drawMomentBands } from '../../../../charts/moments/momentBands.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { type Limb, LIMBS } from '../../../../timing/moments/moments.ts';
import { useBenchRows } from '../../../ladder/benchContext.ts';
import { useDrawing } from '../../../look/useDrawing.ts';
import { groupsOf } from './groups.ts';

const LANE_PX = 84;
const BAND = { x: 10, widthPx: 44 };

export function MovesHead(): ReactElement {
  return (
    <div className="moves-head">
      {LIMBS.map((limb) => <strong key={limb} style={{ width: LANE_PX }}>{LIMB_WORDS[limb]}</strong>)}
    </div>
  );
}

export function MovesBody({ plan }: { readonly plan: Plan }): ReactElement {
  return <div className="moves-lanes" data-rows="charts">{LIMBS.map((limb) => <Lane key={limb} plan={plan} limb={limb} />)}</div>;
}

function Lane({ plan, limb }: { readonly plan: Plan; readonly limb: Limb }): ReactElement {
  const { rows, window } = useBenchRows();
  const svg = useRef<SVGSVGElement>(null);
  const groups = useMemo(() => groupsOf(plan.moments.moves), [plan]);
  const draw = useCallback(() => {
    if (svg.current === null) return;
    drawMomentBands(svg.current, rows, window, BAND, plan.moments.moves.filter(({ of }) => of === limb), plan.moments.pauses.filter(({ of }) => of === limb), `lane-${limb}`);
  }, [plan, rows, window, limb]);
  useDrawing(draw, rows, window);
  const orders = groups.flatMap((group) => group.flatMap((move, k) => (move.of === limb ? [{ move, k, group }] : [])));
  return (
    <div className="lane" style={{ width: LANE_PX }}>
      <svg ref={svg} width={LANE_PX} height={rows.heightPx} role="img" aria-label={`Moves (full) and pauses (hatched) of the ${LIMB_WORDS[limb]}; the numbers say who starts first`} />
      {rows.rowPx < 6 ? null : orders.filter(({ move }) => move.startStep <= window.last && move.endStep >= window.first).map(({ move, k, group }) => (
        <span key={move.startStep} className="order" style={{ top: (move.startStep + 0.5) * rows.rowPx, left: BAND.x + BAND.widthPx }}>
          {k + 1}{k === 0 ? '' : ` ${signedFigure(move.startStep - group[0]!.startStep, 0)}`}
        </span>
      ))}
    </div>
  );
}
