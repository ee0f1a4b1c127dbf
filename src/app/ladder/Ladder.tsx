/**
 * The ladder as it stands on the sheet. For those who do not see it, it is a vertical slider that says each step in words.
 */
import { type ReactElement, useCallback, useEffect, useMemo, useRef } from 'react';
import { turnSums } from '../../charts/amount.ts';
import { gapsAt } from '../../charts/certainty.ts';
import { exposureSpan, figure } from '../../charts/figures.ts';
import { drawLadder, ladder, type Standing } from '../../charts/ladder.ts';
import { BALANCE_MARK_WORDS, balanceMarkAt } from '../../charts/poise/balanceMark.ts';
import { useDrawing } from '../look/useDrawing.ts';
import { paintWithPlayhead } from '../state/playhead.ts';
import { useBook, useSeenPlan, useSession } from '../state/use.ts';
import { useBenchRows } from './benchContext.ts';
import { byHandAt, standingAt } from './handMarks.ts';

function footWords(stands: Standing): string[] {
  if (stands === null) return [];
  const { left, right } = stands;
  return [left && right ? 'both feet stand' : left ? 'the left foot stands' : right ? 'the right foot stands' : 'no foot stands'];
}

export function Ladder(): ReactElement {
  const plan = useSeenPlan();
  const posing = useSession((s) => s.job?.kind === 'posing');
  const shotSteps = useBook((b) => b.shotSteps);
  const { rows, window, layout } = useBenchRows();
  const svg = useRef<SVGSVGElement>(null);
  const slider = useRef<HTMLDivElement>(null);
  const sums = useMemo(() => (plan === null ? null : turnSums(plan)), [plan]);
  const body = useSession((s) => s.fit?.body ?? null);
  const mirror = useBook((b) => b.settings.mirror);
  const corrections = useBook((b) => b.corrections);
  const stands = useMemo(() => (plan === null ? () => null : standingAt(body, mirror, plan)), [body, mirror, plan]);
  const byHand = useMemo(() => (plan === null ? () => undefined : byHandAt(corrections, plan)), [corrections, plan]);
  const shots = useMemo(() => new Set(shotSteps), [shotSteps]);

  const draw = useCallback(() => {
    if (svg.current === null) return;
    if (plan === null || sums === null) {
      svg.current.replaceChildren();
      return;
    }
    const rungs = ladder(rows, window, layout, {
      holds: (index) => plan.holds[index] ?? plan.on,
      exposure: (index) => plan.exposure[index] ?? 0,
      turnSum: (index) => sums.sums[index] ?? 0,
      largestTurnSum: sums.largest,
      // While the track still grows, a frame that has not been reached is not a gap.
      gaps: posing ? () => ({ missing: 0, bridged: 0 }) : (index) => gapsAt(plan, index),
      isShot: (index) => shots.has(index + 1),
      stands,
      byHand,
      balance: (index) => balanceMarkAt(plan.balance, index),
    });
    drawLadder(svg.current, rungs, rows, layout, 'ladder');
  }, [plan, sums, shots, stands, byHand, rows, window, layout, posing]);
  useDrawing(draw, rows, window, layout, shots, corrections);

  useEffect(
    () =>
      paintWithPlayhead(({ step }) => {
        const element = slider.current;
        if (element === null || plan === null || plan.stepCount === 0) return;
        const index = Math.min(step, plan.stepCount - 1);
        const gaps = gapsAt(plan, index);
        const mark = balanceMarkAt(plan.balance, index);
        const words = [
          `step ${index + 1} of ${plan.stepCount}`,
          `exposures ${exposureSpan(plan.exposure[index] ?? 0, plan.holds[index] ?? plan.on)}`,
          `turns ${figure(sums?.sums[index], 0)} degrees in all`,
          ...(gaps.missing > 0 ? [`${gaps.missing} joints missing`] : []),
          ...(gaps.bridged > 0 ? [`${gaps.bridged} joints bridged`] : []),
          ...footWords(stands(index)),
          ...(mark === undefined ? [] : [BALANCE_MARK_WORDS[mark]]),
          ...(byHand(index) === undefined ? [] : ['put right by hand']),
          shots.has(index + 1) ? 'photographed' : 'not photographed',
        ];
        element.setAttribute('aria-valuenow', String(index + 1));
        element.setAttribute('aria-valuetext', words.join(', '));
      }),
    [plan, sums, shots, stands, byHand],
  );

  return (
    <div
      ref={slider}
      className="ladder"
      data-rows="ladder"
      role="slider"
      tabIndex={0}
      aria-label="Steps"
      aria-orientation="vertical"
      aria-valuemin={plan === null ? 0 : 1}
      aria-valuemax={plan?.stepCount ?? 0}
      aria-valuenow={0}
      aria-disabled={plan === null}
    >
      <svg ref={svg} width={layout.widthPx} height={rows.heightPx} aria-hidden="true" />
      {plan === null ? <p className="ladder-empty">The steps will stand here.</p> : null}
    </div>
  );
}
