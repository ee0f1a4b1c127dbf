/** Taps along an action, counted; put into the timing as marks in one edit. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { figure } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { feetWords } from '../../../../timing/counts/filmFeet.ts';
import { countTaps } from '../../../../timing/taps/taps.ts';
import { keyWords } from '../../../keys/keymap.ts';
import { player, setPlayer } from '../../../play/player.ts';
import { clearTaps, takeBackTap, tap, taps as tapStore } from '../../../play/stopwatch.ts';
import { useBook, useSetting } from '../../../state/use.ts';
import { marksFromTaps } from './marksFromTaps.ts';

/** @param plan `null` where there is none yet: taps are counted all the same */
export function StopwatchPart({ plan }: { readonly plan: Plan | null }): ReactElement {
  const on = useStore(player, (s) => s.stopwatch);
  const { tapsS, onFilm, outcome } = useStore(tapStore);
  const gauge = useBook((b) => b.timing.gauge);
  const rateSet = useSetting('rate');
  const rate = plan?.rate ?? rateSet;
  const taps = countTaps(tapsS, rate);
  return (
    <section className="stopwatch" aria-label="Stopwatch">
      <h2>Stopwatch</h2>
      <div className="buttons">
        <button type="button" aria-pressed={on} onClick={() => setPlayer({ stopwatch: !on })}>{on ? 'Stopwatch off' : 'Stopwatch on'}</button>
        {on ? (
          <button
            type="button"
            className="lamp"
            // a pointer taps when it goes down, not when it is let go; without one it is the Enter key
            onPointerDown={(event) => event.button === 0 && tap(event.timeStamp)}
            onClick={(event) => event.detail === 0 && tap(event.timeStamp)}
          >
            Tap ({keyWords('playOrTap')})
          </button>
        ) : null}
      </div>
      <p className="hint">
        {!on ? `While it is on, the space bar taps instead of playing: act the move out, or watch it, and tap at what should be hit.`
          : plan === null ? `There is no plan yet: taps are counted from the first one, at ${figure(rate, 3).replace(/\.?0+$/, '')} exposures a second.`
            : 'While it plays, a tap counts at what is shown; otherwise the first tap is the playhead’s step and the clock goes on from there.'}
      </p>
      {outcome === '' ? null : <p>{outcome}</p>}
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
          <div className="buttons">
            <button type="button" disabled={plan === null} onClick={() => plan !== null && marksFromTaps(plan, taps)}>Make marks of the taps</button>
            <button type="button" onClick={takeBackTap}>Take the last tap back</button>
            <button type="button" onClick={clearTaps}>Forget the taps</button>
          </div>
          {plan === null ? <p className="hint">Marks tie moments of a take to the film. Open a clip, and these taps can become marks.</p>
            : onFilm ? null : <p className="hint">These were tapped without a plan: the first will stand at the playhead’s step.</p>}
        </>
      )}
    </section>
  );
}
