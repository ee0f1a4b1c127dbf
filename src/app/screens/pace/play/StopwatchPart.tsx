/** Taps along an action, counted; put into the timing as marks in one edit. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { figure } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { feetWords } from '../../../../timing/counts/filmFeet.ts';
import { placeMarks, warpFor } from '../../../../timing/marks/marks.ts';
import { countTaps } from '../../../../timing/taps/taps.ts';
import { keyWords } from '../../../keys/keymap.ts';
import { clearTaps, player, setPlayer, tap } from '../../../play/player.ts';
import { currentBook } from '../../../state/bookStore.ts';
import { say } from '../../../state/session.ts';
import { editTiming } from '../../../state/timingEdits.ts';
import { useBook } from '../../../state/use.ts';

export function StopwatchPart({ plan }: { readonly plan: Plan }): ReactElement {
  const on = useStore(player, (s) => s.stopwatch);
  const tapsS = useStore(player, (s) => s.tapsS);
  const gauge = useBook((b) => b.timing.gauge);
  const taps = countTaps(tapsS, plan.rate);
  const toMarks = (): void => {
    const used = Math.max(0, ...currentBook().timing.marks.map(({ id }) => Number(/^tap(\d+)$/.exec(id)?.[1] ?? 0)));
    const idOf = (k: number): string => `tap${used + k + 1}`;
    const done = editTiming((timing, context) => {
      const warp = warpFor(timing, context);
      return placeMarks(timing, context, taps.map(({ filmS }, k) => ({ id: idOf(k), sourceS: warp.sourceAt(filmS), kind: 'tap' as const, name: `tap ${k + 1}` })));
    }, { label: 'marks from taps' });
    if (!done) return;
    // what found no place stays in the list: on the first exposure, on another mark, or beyond the take
    const placed = new Set(currentBook().timing.marks.map(({ id }) => id));
    const left = taps.filter((_, k) => !placed.has(idOf(k)));
    setPlayer({ tapsS: left.map(({ filmS }) => filmS) });
    if (left.length > 0) say(`${left.length} of ${taps.length} taps found no place and stay in the list: they fall on the first exposure, on another mark, or beyond the take.`);
  };
  return (
    <section aria-label="Stopwatch">
      <h2>Stopwatch</h2>
      <button type="button" aria-pressed={on} onClick={() => setPlayer({ stopwatch: !on })}>{on ? 'Stopwatch off' : 'Stopwatch on'}</button>
      {on ? <button type="button" className="strong" onClick={tap}>Tap ({keyWords('playOrTap')})</button> : null}
      <p className="hint">Tap along the action. While it plays, a tap marks what is shown; otherwise the first tap is the playhead’s step and the clock goes on from there.</p>
      {taps.length === 0 ? null : (
        <>
          <table className="keys">
            <caption>Taps</caption>
            <thead><tr><th scope="col">tap</th><th scope="col">exposure</th><th scope="col">since the last</th><th scope="col">seconds</th>{gauge === null ? null : <th scope="col">feet + frames</th>}</tr></thead>
            <tbody>
              {taps.map(({ filmS, exposure, sinceLast }, k) => (
                <tr key={exposure}><td>{k + 1}</td><td>{exposure}</td><td>{k === 0 ? '–' : sinceLast}</td><td>{figure(filmS, 2)}</td>{gauge === null ? null : <td>{feetWords(exposure - 1, gauge)}</td>}</tr>
              ))}
            </tbody>
          </table>
          <button type="button" onClick={toMarks}>Make marks of the taps</button>
          <button type="button" onClick={clearTaps}>Forget the taps</button>
        </>
      )}
    </section>
  );
}
