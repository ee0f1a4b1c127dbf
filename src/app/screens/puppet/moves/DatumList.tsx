/** The readings of the last step that has some, up to the playhead: to be checked on the set before going on. */
import { type ReactElement, useEffect, useMemo, useRef } from 'react';
import { figure, jointWords } from '../../../../charts/figures.ts';
import type { Datum } from '../../../../plan/datums.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { paintWithPlayhead } from '../../../state/playhead.ts';

export function DatumList({ plan }: { readonly plan: Plan }): ReactElement | null {
  const title = useRef<HTMLTableCaptionElement>(null);
  const body = useRef<HTMLTableSectionElement>(null);
  const bySteps = useMemo(() => {
    const map = new Map<number, Datum[]>();
    for (const datum of plan.datums) map.set(datum.step, [...(map.get(datum.step) ?? []), datum]);
    return map;
  }, [plan]);
  useEffect(() => {
    let shown = -1;
    return paintWithPlayhead(({ step }) => {
      let at = Math.min(step, plan.stepCount - 1) + 1;
      while (at > 1 && !bySteps.has(at)) at -= 1;
      if (at === shown || title.current === null || body.current === null) return;
      shown = at;
      const rows = bySteps.get(at) ?? [];
      title.current.textContent = rows.length === 0 ? 'No readings up to here' : `Readings at step ${at}: height over the floor, distance from the mark`;
      body.current.replaceChildren(...rows.map((datum) => {
        const row = document.createElement('tr');
        const head = document.createElement('th');
        head.scope = 'row';
        head.textContent = jointWords(datum.point);
        row.append(head, ...[datum.heightMm, datum.fromMarkMm].map((mm) => {
          const cell = document.createElement('td');
          cell.className = 'number-cell';
          cell.textContent = `${figure(mm, 1)} mm`;
          return cell;
        }));
        return row;
      }));
    });
  }, [plan, bySteps]);
  if (plan.datums.length === 0) return null;
  return (
    <table className="travels">
      <caption ref={title} />
      <tbody ref={body} />
    </table>
  );
}
