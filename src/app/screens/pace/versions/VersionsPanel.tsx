/** Timings kept under a name: gone back to, and compared with the one on the bench as counts and as curves. */
import { type ReactElement, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { figure } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { compareTimings, countsOf } from '../../../../timing/compareTimings.ts';
import { TextField } from '../../../fields/TextField.tsx';
import { currentBook, editBook } from '../../../state/bookStore.ts';
import { paceView } from '../../../state/paceView.ts';
import { benchBase, freshId } from '../../../state/timingEdits.ts';
import { useBook, useSession } from '../../../state/use.ts';
import { curvesOver, turnsFor } from '../jointCurves.ts';
import { VersionAngles } from './VersionAngles.tsx';
import { VersionCurves } from './VersionCurves.tsx';

const MOST_CHARS = 100;

export function VersionsPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const kept = useBook((b) => b.timingVersions);
  const compared = useStore(paceView, (s) => s.compared);
  const [name, setName] = useState('');
  const keep = (): void => {
    const { settings, timing } = currentBook();
    const words = name === '' ? `Timing ${kept.length + 1}` : name;
    editBook((book) => ({
      ...book, timingVersions: [...book.timingVersions, { id: freshId('v'), name: words, timing, rate: settings.rate, on: settings.on, timeScale: settings.timeScale }],
    }), { label: `timing kept as “${words}”` });
    setName('');
  };
  const goBack = (id: string): void => {
    const version = kept.find((one) => one.id === id);
    if (version === undefined) return;
    const { rate, on, timeScale, timing } = version;
    editBook((book) => ({ ...book, timing, settings: { ...book.settings, rate, on, timeScale } }), { label: `timing “${version.name}”` });
  };
  const remove = (id: string): void => {
    editBook((book) => ({ ...book, timingVersions: book.timingVersions.filter((one) => one.id !== id) }), { label: 'kept timing removed' });
    if (compared === id) paceView.setState({ compared: null });
  };
  const other = kept.find(({ id }) => id === compared);
  return (
    <section className="panel" aria-label="Versions">
      <div className="choice-row keep-row">
        <TextField label="Keep this timing as" value={name} maxChars={MOST_CHARS} mayBeEmpty onCommit={setName} />
        <button type="button" className="lamp" onClick={keep}>Keep</button>
      </div>
      {kept.length === 0 ? <p className="hint">Nothing kept yet. Keep a timing under a name, such as “slower landing”, before you try another; you can go back to it and compare the two.</p> : (
        <table className="keys">
          <caption>Kept timings</caption>
          <thead><tr><th scope="col">name</th><th scope="col">length</th><th scope="col"><span className="unseen">what to do</span></th></tr></thead>
          <tbody>
            {kept.map((version) => (
              <tr key={version.id} className={version.id === compared ? 'picked' : ''}>
                <td>{version.name}</td>
                <td><Length id={version.id} /></td>
                <td>
                  <span className="choice-row">
                    <button type="button" className="small" onClick={() => goBack(version.id)}>Go back to it</button>
                    <button type="button" className="small" aria-pressed={version.id === compared} onClick={() => paceView.setState({ compared: version.id === compared ? null : version.id })}>Compare</button>
                    <button type="button" className="small" aria-label={`Remove ${version.name}`} onClick={() => remove(version.id)}>✕</button>
                  </span>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {other === undefined ? null : <Compared plan={plan} id={other.id} />}
    </section>
  );
}

function Length({ id }: { readonly id: string }): ReactElement {
  const version = useBook((b) => b.timingVersions.find((one) => one.id === id));
  const track = useSession((s) => s.track);
  const base = benchBase();
  if (version === undefined || base === null || track === null) return <>–</>;
  const { steps, exposures, seconds } = countsOf(version, base, currentBook().settings.captureFactor);
  return <>{steps} steps, {exposures} exp., {figure(seconds, 2)} s</>;
}

const ON_THE_BENCH = 'on the bench';

function Compared({ plan, id }: { readonly plan: Plan; readonly id: string }): ReactElement | null {
  const version = useBook((b) => b.timingVersions.find((one) => one.id === id));
  const settings = useBook((b) => b.settings);
  const timing = useBook((b) => b.timing);
  const curves = useMemo(() => curvesOver(plan), [plan]);
  const both = useMemo(() => {
    const base = benchBase();
    if (version === undefined || base === null) return null;
    const now = { timing, rate: settings.rate, on: settings.on, timeScale: settings.timeScale };
    const moves = plan.moments.moves.filter(({ of }) => of === 'body');
    return compareTimings(now, version, base, settings.captureFactor, moves.map(({ startS, endS }) => ({ startS, endS })), turnsFor(plan, curves));
  }, [plan, curves, version, settings, timing]);
  if (version === undefined || both === null) return null;
  const names = [ON_THE_BENCH, version.name] as const;
  return (
    <div className="compared">
      <h2>{version.name}, beside what is on the bench</h2>
      <table className="keys">
        <thead><tr><th scope="col">what</th><th scope="col">on the bench</th><th scope="col">{version.name}</th></tr></thead>
        <tbody>
          <tr><td>steps</td><td>{both.first.steps}</td><td>{both.second.steps}</td></tr>
          <tr><td>exposures</td><td>{both.first.exposures}</td><td>{both.second.exposures}</td></tr>
          <tr><td>seconds</td><td>{figure(both.first.seconds, 2)}</td><td>{figure(both.second.seconds, 2)}</td></tr>
          {both.spans.map(([a, b], k) => <tr key={k}><td>move {k + 1}, exposures</td><td>{figure(a, 1)}</td><td>{figure(b, 1)}</td></tr>)}
          <tr><td>extremes bent to steps</td><td>{both.firstBent.bent.length}</td><td>{both.secondBent.bent.length}</td></tr>
        </tbody>
      </table>
      <p className="line-key"><span><i className="line-whole" aria-hidden="true" /> {ON_THE_BENCH}</span><span><i className="line-dashed" aria-hidden="true" /> {version.name}</span></p>
      <div className="version-charts">
        <div><VersionAngles plan={plan} curves={curves} both={both} names={names} /></div>
        <div><VersionCurves first={both.firstCurve} second={both.secondCurve} names={names} /></div>
      </div>
      <p className="hint">The joint as it moves between the steps, before pauses are kept alive and moves are rounded to what a hand can make; time bent for extremes on steps is counted in.</p>
    </div>
  );
}
