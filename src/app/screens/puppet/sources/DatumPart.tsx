/** When and where the real puppet is measured, so that built-up error is taken out of it. */
import type { ReactElement } from 'react';
import type { Plan } from '../../../../plan/plan.ts';
import type { DatumSettings } from '../../../../puppet/puppetSettings.ts';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { NumberField } from '../../../fields/NumberField.tsx';
import { currentBook } from '../../../state/bookStore.ts';
import { playhead } from '../../../state/playhead.ts';
import { editPuppet } from '../../../state/puppetEdits.ts';
import { goToStep } from '../../../state/commands.ts';
import { useBook } from '../../../state/use.ts';
import { jointWords } from '../../../../charts/figures.ts';

function set(some: Partial<DatumSettings>, what: string): void {
  editPuppet({ datum: { ...currentBook().puppet.datum, ...some } }, what, `datum.${what}`);
}

export function DatumPart({ plan }: { readonly plan: Plan }): ReactElement {
  const datum = useBook((b) => b.puppet.datum);
  const toggleHere = (): void => {
    const step = playhead.getState().step + 1;
    const has = datum.atSteps.includes(step);
    set({ atSteps: has ? datum.atSteps.filter((s) => s !== step) : [...datum.atSteps, step].sort((a, b) => a - b) }, has ? `no reading at step ${step}` : `reading at step ${step}`);
  };
  const togglePoint = (name: string): void => {
    const all = plan.points.map((p) => p.name);
    const now = datum.points ?? all;
    const next = all.filter((n) => (n === name ? !now.includes(n) : now.includes(n)));
    set({ points: next.length === all.length ? null : next }, 'points that are read');
  };
  return (
    <section className="panel-part" aria-labelledby="datum-title">
      <h3 id="datum-title">Readings on the set</h3>
      <p className="hint">Height over the stage floor and distance from a mark, as read with a height gauge and a rule.</p>
      <div className="field-grid">
        <NumberField label="One every" unit="steps" value={datum.everySteps === 0 ? null : datum.everySteps} emptyWord="never" min={1} max={10000} step={1} decimals={0} onCommit={(v) => set({ everySteps: v === null ? 0 : Math.round(v) }, 'how often it is read')} />
        <button type="button" onClick={toggleHere}>One at this step, or none</button>
        <MeasureField label="Mark: toward the camera" quantity="length" value={datum.markMm[0]} min={-100000} max={100000} step={5} onCommit={(v) => v !== null && set({ markMm: [v, datum.markMm[1]] }, 'mark')} />
        <MeasureField label="Mark: to the left of the picture" quantity="length" value={datum.markMm[1]} min={-100000} max={100000} step={5} onCommit={(v) => v !== null && set({ markMm: [datum.markMm[0], v] }, 'mark')} />
      </div>
      {datum.atSteps.length === 0 ? null : <p className="step-links">Also at {datum.atSteps.map((step) => <button key={step} type="button" className="small" onClick={() => goToStep(step - 1)}>{step}</button>)}</p>}
      <details>
        <summary>Points that are read: {datum.points === null ? 'all' : datum.points.length} of {plan.points.length}</summary>
        {plan.points.map((point) => (
          <label key={point.name} className="check">
            <input type="checkbox" checked={datum.points === null || datum.points.includes(point.name)} onChange={() => togglePoint(point.name)} />
            <span>{jointWords(point.name)}</span>
          </label>
        ))}
      </details>
    </section>
  );
}
