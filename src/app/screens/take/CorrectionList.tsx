/** Everything that was put right by hand, in order of time: go there, or take it back. */
import { type ReactElement, useMemo } from 'react';
import { figure } from '../../../charts/figures.ts';
import { listCorrections } from '../../corrections/listed.ts';
import { editCorrections } from '../../state/correcting.ts';
import { goToTime } from '../../state/shownFrame.ts';
import { useBook } from '../../state/use.ts';

export function CorrectionList(): ReactElement {
  const corrections = useBook((b) => b.corrections);
  const list = useMemo(() => listCorrections(corrections), [corrections]);
  return (
    <section className="part" aria-label="All corrections">
      <h2>Corrections <span className="hint">{list.length}</span></h2>
      {list.length === 0 ? <p className="hint">None yet. Whatever is put right by hand stands here and can be taken back one by one; the measured track is never changed.</p> : (
        <ul className="spans">
          {list.map(({ key, fromS, words, remove }) => (
            <li key={key}>
              {fromS === null
                ? <span className="span-time">take</span>
                : <button type="button" className="span-time" aria-label={`Go to ${figure(fromS, 2)} seconds`} onClick={() => goToTime(fromS)}>{figure(fromS, 2)} s</button>}
              <span>{words}</span>
              <button type="button" className="small" aria-label={`Take back: ${words}`} onClick={() => editCorrections(remove)}>take back</button>
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
