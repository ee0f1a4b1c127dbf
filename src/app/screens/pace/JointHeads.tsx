/** Above each joint's columns: its name, its figures at the playhead, and the axes with their units. */
import { type ReactElement, useEffect, useLayoutEffect, useMemo, useRef } from 'react';
import { COLUMN_PAD_PX, degreeTicks, drawDegreeAxis } from '../../../charts/degreeAxis.ts';
import { figure, jointWords, signedFigure } from '../../../charts/figures.ts';
import { turnsFreely } from '../../../puppet/armature.ts';
import { useBenchRows } from '../../ladder/benchContext.ts';
import { paintWithPlayhead } from '../../state/playhead.ts';
import { keyWords } from '../puppet/moves/moveWords.ts';
import { columnWidths } from './columnWidths.ts';
import { RAIL_PX } from './rail/Rail.tsx';
import { useSpanStripPx } from './span/SpanStrip.tsx';
import type { JointColumn } from './useColumns.ts';

const AXIS_PX = 26;

export function JointHeads({ columns }: { readonly columns: readonly JointColumn[] }): ReactElement {
  const { viewWidthPx, layout } = useBenchRows();
  const stripPx = useSpanStripPx();
  const widths = columnWidths(viewWidthPx - layout.widthPx - RAIL_PX - stripPx, columns.length);
  return (
    <div className="joint-heads">
      {columns.map((column) => (
        <JointHead key={column.name} column={column} anglePx={widths.anglePx} incrementPx={widths.incrementPx} gapPx={widths.gapPx} />
      ))}
    </div>
  );
}

interface JointHeadProps {
  readonly column: JointColumn;
  readonly anglePx: number;
  readonly incrementPx: number;
  readonly gapPx: number;
}

function JointHead({ column, anglePx, incrementPx, gapPx }: JointHeadProps): ReactElement {
  const now = useRef<HTMLSpanElement>(null);
  const within = useRef<HTMLElement>(null);
  const turn = useRef<HTMLSpanElement>(null);
  const key = useRef<HTMLElement>(null);
  useEffect(
    () =>
      paintWithPlayhead(({ step }) => {
        if (now.current !== null) {
          now.current.textContent = column.angle.certainty(step) === 'missing' ? '–' : `${figure(column.angle.value(step), 1)}°`;
        }
        if (within.current !== null) {
          const error = column.errorDeg(step);
          within.current.textContent = column.angle.certainty(step) !== 'missing' && Number.isFinite(error) ? `±${figure(error, 0)}` : '';
        }
        if (turn.current !== null) {
          const value = column.increment.certainty(step) === 'missing' ? undefined : column.increment.value(step);
          const words = turnsFreely(column.kind) ? figure(value, 1) : signedFigure(value, 1);
          turn.current.textContent = value === undefined ? '–' : `${words}°`;
          const turns = column.keyTurns(step);
          if (key.current !== null) key.current.textContent = value === undefined || !Number.isFinite(turns) ? '' : keyWords(turns);
        }
      }),
    [column],
  );
  return (
    <div className="joint-head" style={{ width: anglePx + incrementPx, marginRight: gapPx }}>
      <strong>{jointWords(column.name)}</strong>
      <div className="joint-now">
        <span style={{ width: anglePx }}><span ref={now} /> <small ref={within} /></span>
        <span ref={turn} style={{ width: incrementPx }} />
      </div>
      <div className="joint-units">
        <span style={{ width: anglePx }}>{angleUnit(column.kind)}</span>
        <span style={{ width: incrementPx }}>{column.kind === 'screw' ? <><em ref={key} /><br /></> : null}° a step</span>
      </div>
      <div className="joint-axes">
        <Axis domain={column.angleDomain} widthPx={anglePx} />
        <Axis domain={column.incrementDomain} widthPx={incrementPx} />
      </div>
    </div>
  );
}

/** What a joint's angle is called, with its unit: a screw opens and shuts, whatever its key does. */
function angleUnit(kind: JointColumn['kind']): string {
  if (kind === 'swivel') return 'twist, °';
  if (kind === 'screw') return 'opening, °';
  return turnsFreely(kind) ? 'from rest, °' : 'bend, °';
}

function Axis({ domain, widthPx }: { readonly domain: readonly [number, number]; readonly widthPx: number }): ReactElement {
  const svg = useRef<SVGSVGElement>(null);
  const ticks = useMemo(() => {
    const share = (deg: number): number => (deg - domain[0]) / (domain[1] - domain[0]);
    return degreeTicks(domain, widthPx, (deg) => COLUMN_PAD_PX + share(deg) * (widthPx - 2 * COLUMN_PAD_PX));
  }, [domain, widthPx]);
  useLayoutEffect(() => {
    if (svg.current !== null) drawDegreeAxis(svg.current, ticks, AXIS_PX);
  }, [ticks]);
  return <svg ref={svg} className="axis" width={widthPx} height={AXIS_PX} aria-hidden="true" />;
}
