/** Limbs over a span of steps: which is faster, and which leads; and their speed at the playhead. */
import { type ReactElement, useEffect, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import { figure, signedFigure } from '../../../../charts/figures.ts';
import { limbValue, type RateUnit } from '../../../../charts/limbs/limbRates.ts';
import { LIMB_WORDS } from '../../../../charts/moments/limbWords.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { compareLimbs, SURE_LAG } from '../../../../timing/moments/compareLimbs.ts';
import type { Limb } from '../../../../timing/moments/moments.ts';
import { goToStep } from '../../../state/commands.ts';
import { paceView } from '../../../state/paceView.ts';
import { paintWithPlayhead } from '../../../state/playhead.ts';
import { SpanFields } from '../../poise/SpanFields.tsx';
import { spanWithin } from '../span/spanEnds.ts';

export function SpanTable({ plan, unit }: { readonly plan: Plan; readonly unit: RateUnit }): ReactElement {
  const marked = useStore(paceView, (s) => s.span);
  const [from, to] = spanWithin(marked, plan.stepCount) ?? [0, plan.stepCount - 1];
  const compared = useMemo(() => compareLimbs(plan.limbRates, plan.moments.moves, from, to), [plan, from, to]);
  const here = useRef(new Map<Limb, HTMLElement>());
  useEffect(() => paintWithPlayhead(({ step }) => {
    for (const [limb, cell] of here.current) cell.textContent = figure(limbValue(plan.limbRates, unit, limb, Math.min(step, plan.stepCount - 1)), unit === 'heights' ? 2 : 1);
  }), [plan, unit]);
  const lead = (limb: Limb | null): string => (limb === null ? 'can’t be told' : LIMB_WORDS[limb]);
  return (
    <div className="limb-table">
      <SpanFields plan={plan} span={[from + 1, to + 1]} onChange={([a, b]) => paceView.setState({ span: [a - 1, b - 1] })} />
      <button type="button" className="small" disabled={marked === null} onClick={() => paceView.setState({ span: null })}>The whole plan</button>
      <p className="hint">A span can also be drawn over the rows, in the strip beside the rail; its ends are dragged or moved by the arrow keys.</p>
      <table className="keys">
        <thead><tr><th scope="col">limb</th><th scope="col">here</th><th scope="col">ratio</th><th scope="col">fastest</th><th scope="col">later by, steps</th></tr></thead>
        <tbody>
          {compared.limbs.map(({ limb, ratio, mostDeg, fastestStep, lag }) => (
            <tr key={limb}>
              <td>{LIMB_WORDS[limb]}</td>
              <td ref={(cell) => { if (cell === null) here.current.delete(limb); else here.current.set(limb, cell); }} />
              <td>{figure(ratio, 2)}</td>
              <td>{Number.isFinite(mostDeg) ? <button type="button" className="small" title={`${figure(mostDeg, 1)}° in this step; go there`} onClick={() => goToStep(fastestStep)}>{fastestStep + 1}</button> : '–'}</td>
              <td>{lag === null ? '–' : `${signedFigure(lag.steps, 1)} ${lag.confidence >= SURE_LAG ? `(sure ${figure(lag.confidence, 2)})` : '(unsure)'}`}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <dl className="facts">
        <div><dt>leads</dt><dd>{lead(compared.leadsByLag)} by likeness, {lead(compared.leadsByStart)} by starts</dd></div>
        <div><dt>left ÷ right</dt><dd>arms {figure(compared.armsLeftOverRight, 2)}, legs {figure(compared.legsLeftOverRight, 2)}</dd></div>
      </dl>
      <p className="hint">Ratio and lag are against the limb that turns most. A lag is a likeness of speeds; below {figure(SURE_LAG, 2)} it is no more than a guess.</p>
    </div>
  );
}
