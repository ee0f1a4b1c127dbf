/**
 * The rows of the sheet. Only blocks of rows near the view are in the page, and a block is made once, so that long plans
 * scroll as short ones do.
 */
import { memo, type ReactElement, useMemo } from 'react';
import { TALL_ROW_PX } from '../../../charts/ladder.ts';
import { isLabelled, labelEvery } from '../../../charts/rowScale.ts';
import type { Plan } from '../../../plan/plan.ts';
import { useInTurn } from '../../look/useInTurn.ts';
import { useBenchRows } from '../../ladder/benchContext.ts';
import { SIDE_STEP_PX } from '../../ladder/useBenchWindow.ts';
import { JointCell, PointCell } from './cells.tsx';
import { FIGURE_ROW_PX, groupsInView, type SheetColumn, type SheetGroup } from './columns.ts';

/** Rows of a block, counted in rows that carry figures. */
const BLOCK_ROWS = 12;

export function SheetRows({ plan, groups }: { readonly plan: Plan; readonly groups: readonly SheetGroup[] }): ReactElement {
  const { rows, window, leftPx, viewWidthPx, layout } = useBenchRows();
  const side = groupsInView(groups, leftPx - SIDE_STEP_PX, leftPx + viewWidthPx - layout.widthPx + 2 * SIDE_STEP_PX);
  const shown = useMemo(() => groups.slice(side.first, side.last + 1), [groups, side.first, side.last]);
  const every = labelEvery(rows.rowPx, FIGURE_ROW_PX);
  const blockRows = BLOCK_ROWS * every;
  const blocks: number[] = [];
  for (let b = Math.floor(window.first / blockRows); b * blockRows <= window.last; b += 1) blocks.push(b);
  return (
    <div
      className={`sheet${rows.rowPx >= TALL_ROW_PX ? ' tall-rows' : ''}`}
      data-rows="table"
      role="table"
      aria-label="Angle and turn of each joint at each step, and how far its points travel"
      aria-rowcount={plan.stepCount + 1}
      aria-colcount={1 + groups.reduce((sum, g) => sum + g.columns.length, 0)}
      style={{ width: groups.reduce((sum, g) => sum + g.widthPx, 0) }}
    >
      <div role="rowgroup" className="unseen">
        <div role="row" aria-rowindex={1}>
          <span role="columnheader" aria-colindex={1}>step</span>
          {shown.flatMap((g) => g.columns.map((c, i) => <span key={`${g.key}.${i}`} role="columnheader" aria-colindex={g.firstColumn + i}>{columnWords(g, c)}</span>))}
        </div>
      </div>
      {blocks.map((block) => (
        <Block key={block} plan={plan} groups={shown} fromPx={side.fromPx} first={block * blockRows} count={blockRows} every={every} rowPx={rows.rowPx} />
      ))}
    </div>
  );
}

function columnWords(group: SheetGroup, column: SheetColumn): string {
  switch (column.kind) {
    case 'angle':
      return `${group.title} angle`;
    case 'turn':
      return `${group.title} turn`;
    case 'part':
      return `${group.title} turn about ${['forward', 'up', 'right'][column.axis]}`;
    case 'unseen':
      return `${group.title}, cannot be seen`;
    case 'travel':
      return `${group.title} travel, mm`;
    case 'way':
      return `${group.title} direction`;
    case 'height':
      return `${group.title} height over the floor, mm`;
    case 'mark':
      return `${group.title} distance from the mark, mm`;
  }
}

interface BlockProps {
  readonly plan: Plan;
  readonly groups: readonly SheetGroup[];
  /** Width of the columns left of `groups`, which are not drawn. */
  readonly fromPx: number;
  readonly first: number;
  readonly count: number;
  readonly every: number;
  readonly rowPx: number;
}

/** A block shows a new plan in its turn: the text of hundreds of cells takes the page a while to lay out. */
function Block(props: BlockProps): ReactElement {
  const plan = useInTurn(props.plan, (former) => former.joints === props.plan.joints && former.stepCount === props.plan.stepCount);
  return <BlockRows {...props} plan={plan} />;
}

const BlockRows = memo(function BlockRows({ plan, groups, fromPx, first, count, every, rowPx }: BlockProps): ReactElement {
  const indices: number[] = [];
  for (let i = first; i < Math.min(first + count, plan.stepCount); i += 1) if (isLabelled(i, every, rowPx)) indices.push(i);
  return (
    <div role="rowgroup" className="sheet-block" style={{ top: first * rowPx, lineHeight: `${rowPx}px` }}>
      {indices.map((index) => (
        <div key={index} role="row" aria-rowindex={index + 2} className="sheet-row" style={{ top: (index - first) * rowPx, height: rowPx, paddingLeft: fromPx }}>
          <span role="rowheader" aria-colindex={1} className="unseen">{index + 1}</span>
          {groups.map((group) => group.columns.map((column, i) => ('joint' in column
            ? <JointCell key={`${group.key}.${i}`} plan={plan} index={index} column={column} at={group.firstColumn + i} first={i === 0} />
            : <PointCell key={`${group.key}.${i}`} plan={plan} index={index} column={column} at={group.firstColumn + i} first={i === 0} />)))}
        </div>
      ))}
    </div>
  );
});
