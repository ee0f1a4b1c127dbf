/** The rail beside the ladder: what the performer does when, and the marks that tie it to the film. */
import { type ReactElement, useCallback, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import { LIMB_WORDS } from '../../../../charts/moments/limbWords.ts';
import { drawMomentBands } from '../../../../charts/moments/momentBands.ts';
import type { RowWindow } from '../../../../charts/rowScale.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { LIMBS } from '../../../../timing/moments/moments.ts';
import { Select } from '../../../fields/Select.tsx';
import { useBenchRows } from '../../../ladder/benchContext.ts';
import { useDrawing } from '../../../look/useDrawing.ts';
import { paceView } from '../../../state/paceView.ts';
import { useBook } from '../../../state/use.ts';
import { rowOfFilm } from './filmRows.ts';
import { gripPlaces } from './gripPlaces.ts';
import { MarkGrip } from './MarkGrip.tsx';

/** Width of the rail, and of its lane of moves and pauses, px. */
export const RAIL_PX = 148;
const LANE = { x: 8, widthPx: 30 };
/** Left edge of the grips, px. */
const GRIPS_PX = LANE.x + LANE.widthPx + 6;
/** Rows beyond the drawn ones in which a grip may still reach into them. */
const NEAR_ROWS = 40;

const isNear = (row: number, { first, last }: RowWindow): boolean => row >= first - NEAR_ROWS && row <= last + NEAR_ROWS;

const OF = ['body', ...LIMBS] as const;

export function RailHead({ plan }: { readonly plan: Plan }): ReactElement {
  const of = useStore(paceView, (s) => s.of);
  const marks = useBook((b) => b.timing.marks.length);
  const moves = plan.moments.moves.filter((move) => move.of === of).length;
  const pauses = plan.moments.pauses.filter((pause) => pause.of === of).length;
  return (
    <div className="rail-head" style={{ width: RAIL_PX }}>
      <Select label="Moves and pauses of" value={of} options={OF.map((value) => ({ value, words: LIMB_WORDS[value] }))} onChoose={(value) => paceView.setState({ of: value })} />
      <p>{moves} {moves === 1 ? 'move' : 'moves'}, {pauses} {pauses === 1 ? 'pause' : 'pauses'}</p>
      <p>{marks} {marks === 1 ? 'mark' : 'marks'}</p>
    </div>
  );
}

export function Rail({ plan }: { readonly plan: Plan }): ReactElement {
  const { rows, window } = useBenchRows();
  const of = useStore(paceView, (s) => s.of);
  const marks = useBook((b) => b.timing.marks);
  const places = useMemo(() => gripPlaces(marks.map(({ filmS }) => (rowOfFilm(plan, filmS) + 0.5) * rows.rowPx)), [marks, plan, rows]);
  const picked = useStore(paceView, (s) => s.picked);
  const seen = marks.flatMap((mark, k) => (mark.id === picked || isNear(places[k]!.markY / rows.rowPx, window) ? [{ mark, place: places[k]! }] : []));
  const svg = useRef<SVGSVGElement>(null);
  const draw = useCallback(() => {
    if (svg.current === null) return;
    const own = <T extends { readonly of: string }>(all: readonly T[]): readonly T[] => all.filter((one) => one.of === of);
    drawMomentBands(svg.current, rows, window, LANE, own(plan.moments.moves), own(plan.moments.pauses), 'rail');
  }, [plan, rows, window, of]);
  useDrawing(draw, rows, window, of);
  return (
    <div className="rail" data-rows="charts" style={{ width: RAIL_PX, height: rows.heightPx }}>
      <svg
        ref={svg}
        className="rail-bands"
        width={LANE.x + LANE.widthPx + 6}
        height={rows.heightPx}
        role="img"
        aria-label={`Moves (full) and pauses (hatched) of the ${LIMB_WORDS[of]} over the steps; the Retime panel lists them`}
      />
      <svg className="rail-leads" width={GRIPS_PX} height={rows.heightPx} aria-hidden="true">
        {seen.map(({ mark, place }) => <path key={mark.id} d={`M0,${place.markY}H${LANE.x + LANE.widthPx - 4}L${GRIPS_PX},${place.gripY}`} />)}
      </svg>
      {seen.map(({ mark, place }) => <MarkGrip key={mark.id} mark={mark} plan={plan} place={place} leftPx={GRIPS_PX} />)}
    </div>
  );
}
