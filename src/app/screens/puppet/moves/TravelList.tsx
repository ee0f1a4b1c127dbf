/** How far the ends and bends of the puppet travel at the step of the playhead, and which way as the taking camera sees it. */
import { type ReactElement, useEffect, useRef } from 'react';
import { figure, jointWords } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { paintWithPlayhead } from '../../../state/playhead.ts';
import { depthWords, hourWords } from './moveWords.ts';

/** What is written for one point; exact to the figure, so that it can be measured on the set. */
export function travelWords(plan: Plan, step: number, point: number): readonly [string, string] {
  const at = step * plan.points.length + point;
  const mm = plan.travelMm[at];
  if (mm === undefined || !Number.isFinite(mm)) return ['–', ''];
  if (mm < 0.05) return ['·', ''];
  return [`${figure(mm, 1)} mm`, [hourWords(plan.hour[at]), depthWords(plan.towardMm[at])].filter((words) => words !== '').join(', ')];
}

export function TravelList({ plan }: { readonly plan: Plan }): ReactElement {
  const cells = useRef<(HTMLTableCellElement | null)[]>([]);
  const ways = useRef<(HTMLTableCellElement | null)[]>([]);
  useEffect(
    () =>
      paintWithPlayhead(({ step }) => {
        const index = Math.min(step, plan.stepCount - 1);
        plan.points.forEach((_, c) => {
          const [far, way] = travelWords(plan, index, c);
          const cell = cells.current[c];
          const toward = ways.current[c];
          if (cell) cell.textContent = far;
          if (toward) toward.textContent = way;
        });
      }),
    [plan],
  );
  return (
    <table className="travels">
      <caption>Since the step before, as the camera sees it: hour of the clock, toward or away from the lens</caption>
      <tbody>
        {plan.points.map((point, c) => (
          <tr key={point.name}>
            <th scope="row">{jointWords(point.name)}</th>
            <td ref={(element) => { cells.current[c] = element; }} className="number-cell" />
            <td ref={(element) => { ways.current[c] = element; }} />
          </tr>
        ))}
      </tbody>
    </table>
  );
}
