/** The marks as a list: name, exposure, locked, removed. */
import { memo, type ReactElement } from 'react';
import { useStore } from 'zustand';
import { figure } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import type { TimeMark } from '../../../../timing/timingSettings.ts';
import { exposureAt, lockMark, removeMark, renameMark, typeMark } from '../../../../timing/marks/marks.ts';
import { NumberField } from '../../../fields/NumberField.tsx';
import { TextField } from '../../../fields/TextField.tsx';
import { paceView } from '../../../state/paceView.ts';
import { editTiming } from '../../../state/timingEdits.ts';
import { useBook } from '../../../state/use.ts';
import { markLabel, markWords } from '../rail/markWords.ts';

const MOST_EXPOSURES = 1_000_000;

export function MarkRows({ plan }: { readonly plan: Plan }): ReactElement {
  const marks = useBook((b) => b.timing.marks);
  const picked = useStore(paceView, (s) => s.picked);
  if (marks.length === 0) return <p className="hint">No marks yet. A mark ties a moment of the take to an exposure: put one at the playhead, or take those that were found, then drag it along the rows or type its exposure.</p>;
  return (
    <table className="keys mark-rows">
      <caption>Marks</caption>
      <thead><tr><th scope="col">name</th><th scope="col">take, s</th><th scope="col">exposure</th><th scope="col">locked</th><th scope="col"><span className="unseen">remove</span></th></tr></thead>
      <tbody>
        {marks.map((mark) => <MarkRow key={mark.id} mark={mark} picked={mark.id === picked} rate={plan.rate} />)}
      </tbody>
    </table>
  );
}

/** Of all marks, only the one that is dragged is made anew. */
const MarkRow = memo(function MarkRow({ mark, picked, rate }: { readonly mark: TimeMark; readonly picked: boolean; readonly rate: number }): ReactElement {
  return (
    <tr className={picked ? 'picked' : ''} onFocus={() => paceView.setState({ picked: mark.id })}>
      <td><TextField label={`Name of the ${markWords(mark)}`} value={mark.name} maxChars={100} mayBeEmpty onCommit={(name) => editTiming((timing) => renameMark(timing, mark.id, name), { label: `mark renamed ${name}` })} /></td>
      <td>{figure(mark.sourceS, 3)}</td>
      <td>
        <NumberField
          hideLabel label={`Exposure of the ${markWords(mark)}`} value={exposureAt(mark.filmS, rate)} min={2} max={MOST_EXPOSURES} step={1} decimals={0} widthCh={5} disabled={mark.locked}
          onCommit={(v) => v !== null && editTiming((timing, context) => typeMark(timing, context, mark.id, Math.round(v)), { label: `${markLabel(mark)} to exposure ${Math.round(v)}` })}
        />
      </td>
      <td>
        <label className="check"><input type="checkbox" checked={mark.locked} aria-label={`Lock the ${markWords(mark)}`} onChange={() => editTiming((timing) => lockMark(timing, mark.id, !mark.locked), { label: `${markLabel(mark)} ${mark.locked ? 'unlocked' : 'locked'}` })} /></label>
      </td>
      <td><button type="button" className="small" aria-label={`Remove the ${markWords(mark)}`} onClick={() => editTiming((timing) => removeMark(timing, mark.id), { label: `${markLabel(mark)} removed` })}>✕</button></td>
    </tr>
  );
});
