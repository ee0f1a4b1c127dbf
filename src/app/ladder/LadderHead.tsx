/** Above the ladder: the step the playhead is at, large enough to be read from the set, and the heads of the ladder's columns. */
import { type KeyboardEvent, type ReactElement, useEffect, useMemo, useRef } from 'react';
import { turnSums } from '../../charts/amount.ts';
import { exposureSpan, figure } from '../../charts/figures.ts';
import type { LadderLayout } from '../../charts/ladder.ts';
import { BALANCE_LEGEND, BALANCE_MARK_SHORT, balanceMarkAt } from '../../charts/poise/balanceMark.ts';
import { isFull, verdictPath } from '../../charts/poise/verdictSigns.ts';
import { Key } from '../fields/Key.tsx';
import { frameAtPlayhead } from '../media/frameAtPlayhead.ts';
import { goToStep, runCommand } from '../state/commands.ts';
import { paintWithPlayhead } from '../state/playhead.ts';
import { frameTimes } from '../state/shownFrame.ts';
import { bookStore } from '../state/bookStore.ts';
import { useBook, useSeenPlan } from '../state/use.ts';

export function LadderHead({ layout }: { readonly layout: LadderLayout }): ReactElement {
  const plan = useSeenPlan();
  const shotSteps = useBook((b) => b.shotSteps);
  const step = useRef<HTMLInputElement>(null);
  const exposures = useRef<HTMLSpanElement>(null);
  const moment = useRef<HTMLSpanElement>(null);
  const sign = useRef<SVGPathElement>(null);
  const balance = useRef<HTMLElement>(null);
  const shot = useRef<HTMLButtonElement>(null);
  const largest = useMemo(() => (plan === null ? 0 : turnSums(plan).largest), [plan]);

  useEffect(
    () =>
      paintWithPlayhead((at) => {
        const index = plan === null ? -1 : Math.min(at.step, plan.stepCount - 1);
        if (step.current !== null && document.activeElement !== step.current) {
          step.current.value = index < 0 ? '–' : String(index + 1);
          step.current.classList.toggle('long', index >= 9999);
        }
        if (exposures.current !== null) {
          exposures.current.textContent = plan === null || index < 0 ? '' : exposureSpan(plan.exposure[index] ?? 0, plan.holds[index] ?? plan.on);
        }
        const frame = frameAtPlayhead(frameTimes(), plan, at);
        if (moment.current !== null) moment.current.textContent = frame === undefined ? '' : `${figure(frame.timeS, 3)} s`;
        const mark = plan === null || index < 0 ? undefined : balanceMarkAt(plan.balance, index);
        if (balance.current !== null) balance.current.textContent = mark === undefined ? '' : BALANCE_MARK_SHORT[mark];
        sign.current?.setAttribute('d', mark === undefined ? '' : verdictPath(mark, 8, 8, 6));
        sign.current?.setAttribute('class', mark !== undefined && isFull(mark) ? 'balance-full' : 'balance-outline');
        shot.current?.setAttribute('aria-pressed', String(bookStore.getState().history.present.shotSteps.includes(index + 1)));
      }),
    // The list of photographed steps is read when painting; it is named here so that a change of it paints.
    [plan, shotSteps],
  );

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>): void => {
    const input = event.currentTarget;
    if (event.key === 'Enter') {
      const wanted = Math.round(Number(input.value.trim()));
      if (Number.isFinite(wanted) && wanted > 0) goToStep(wanted - 1);
      input.blur();
    } else if (event.key === 'Escape') {
      input.blur();
    } else {
      return;
    }
    event.preventDefault();
    event.stopPropagation();
  };

  const empty = plan === null;
  return (
    <div className="ladder-head">
      <div className="ladder-now">
        <div className="ladder-step">
          <label htmlFor="go-to-step">step <Key of="goToStep" /></label>
          <input
            ref={step}
            id="go-to-step"
            className="big-number"
            type="text"
            inputMode="numeric"
            autoComplete="off"
            defaultValue="–"
            disabled={empty}
            aria-label="Go to step"
            onFocus={(event) => event.target.select()}
            onBlur={(event) => { event.target.value = String(Number(document.querySelector('.ladder')?.getAttribute('aria-valuenow')) || '–'); }}
            onKeyDown={onKeyDown}
          />
        </div>
        <dl className="ladder-facts">
          <div><dt>of</dt><dd>{empty ? '' : plan.stepCount}</dd></div>
          <div><dt>exp.</dt><dd><span ref={exposures} /></dd></div>
          <div><dt>take</dt><dd><span ref={moment} /></dd></div>
          <div title={BALANCE_LEGEND}><dt><span className="unseen">balance</span><svg width="16" height="16" aria-hidden="true"><path ref={sign} /></svg></dt><dd ref={balance} /></div>
        </dl>
        <div className="ladder-buttons">
          <button type="button" className="small" aria-label="Taller rows" title="Taller rows: + or Ctrl with the wheel" onClick={() => runCommand('rowsTaller')}>+</button>
          <button type="button" className="small" aria-label="Lower rows" title="Lower rows: − or Ctrl with the wheel" onClick={() => runCommand('rowsLower')}>−</button>
        </div>
      </div>
      <div className="ladder-columns" aria-hidden="true">
        <span style={{ right: layout.widthPx - layout.numberX }}>step</span>
        <span style={{ right: layout.widthPx - layout.exposureX }}>exposure</span>
        <span style={{ left: layout.barX }}>turns<br />{largest > 0 ? `0–${figure(largest, 0)}°` : ''}</span>
        <span style={{ left: layout.markX }} title="G: joints that are missing. B: joints bridged over a short gap.">{empty ? '' : 'gap'}<br />&nbsp;</span>
        <span style={{ left: layout.feetX - 2 }} title="Which foot stands: the left one whole, the right one open in the middle.">{empty ? '' : 'feet'}<br />{empty ? '' : 'L R'}</span>
      </div>
      <button
        ref={shot}
        type="button"
        className="shot-head"
        disabled={empty}
        aria-pressed="false"
        title="Mark the step at the playhead as photographed"
        onClick={() => runCommand('toggleShot')}
      >
        <Key of="toggleShot" /><span>shot</span>
      </button>
    </div>
  );
}
