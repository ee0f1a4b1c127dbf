/** Sheet: every joint of every step in figures, on the rows of the ladder, to work from and to take away. */
import { type ReactElement, useMemo } from 'react';
import { labelEvery } from '../../../charts/rowScale.ts';
import { Key } from '../../fields/Key.tsx';
import { Bench } from '../../ladder/Bench.tsx';
import { runCommand } from '../../state/commands.ts';
import { session } from '../../state/session.ts';
import { useSession } from '../../state/use.ts';
import { FIGURE_ROW_PX, PART_WORDS, type SheetColumn, sheetGroups } from './columns.ts';
import { NoPlan } from './NoPlan.tsx';
import { SheetRows } from './SheetRows.tsx';

function unitWords(column: SheetColumn, screw: boolean): string {
  if (column.kind === 'part') return `${PART_WORDS[column.axis]} °`;
  switch (column.kind) {
    case 'unseen': return '';
    case 'travel': return 'mm';
    case 'way': return 'way';
    case 'height': return 'high mm';
    case 'mark': return 'mark mm';
    default: return column.kind === 'turn' && screw ? 'turn, key' : `${column.kind} °`;
  }
}

export function SheetScreen(): ReactElement {
  const plan = useSession((s) => s.plan);
  const parts = useSession((s) => s.parts);
  const rowPx = useSession((s) => s.rowPx);
  const busy = useSession((s) => s.job !== null);
  const joints = plan?.joints;
  // By name, since every plan brings a list of its own.
  const points = plan?.points.map(({ name }) => name).join('\n') ?? '';
  const readings = plan !== null && plan.datums.length > 0;
  const groups = useMemo(() => (joints === undefined ? [] : sheetGroups(joints, parts, points === '' ? [] : points.split('\n'), readings)), [joints, parts, points, readings]);
  const every = labelEvery(rowPx, FIGURE_ROW_PX);
  const head = (
    <div className="sheet-head">
      {groups.map((group) => (
        <div key={group.key} className="sheet-group" style={{ width: group.widthPx }}>
          <strong>{group.title}</strong>
          <span className="meaning">{group.meaning}</span>
          <span className="sheet-units">
            {group.columns.map((column, i) => (
              <span key={i} className={`units-${column.kind}`} style={{ width: column.widthPx }}>
                {unitWords(column, 'joint' in column && joints?.[column.joint]?.kind === 'screw')}
              </span>
            ))}
          </span>
        </div>
      ))}
    </div>
  );
  return (
    <main className="screen screen-sheet">
      <h1 className="unseen">Sheet</h1>
      <div className="strip">
        <div className="buttons">
          <button type="button" className="main" disabled={plan === null || busy} onClick={() => runCommand('saveIncrements')}>Save increments.csv <Key of="saveIncrements" /></button>
          <button type="button" className="main" disabled={plan === null || busy} onClick={() => runCommand('savePlan')}>Save plan.json <Key of="savePlan" /></button>
        </div>
        <label className="check">
          <input type="checkbox" checked={parts} disabled={plan === null} onChange={(event) => session.setState({ parts: event.target.checked })} />
          <span>Parts of each turn</span>
        </label>
        <p className="hint">
          {parts ? 'Parts: about the forward, the up and the right axis of the part that carries the joint. ' : 'Degrees. Turn: since the step before. '}
          Hatched: unsure, ± how far two in three true angles lie at most. –: not known. ‡ cut off at a limit, ~ not all can be made, ¶ foot and † pin out of reach, ⇄ shared.{every > 1 ? ` Every ${every}th step is written; taller rows (+) show all.` : ''}
        </p>
      </div>
      <Bench across head={plan === null ? null : head}>
        {plan === null ? <NoPlan /> : <SheetRows plan={plan} groups={groups} />}
      </Bench>
    </main>
  );
}
