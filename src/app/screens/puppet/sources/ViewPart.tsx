/** Where the taking camera stands: it decides which way a hand is said to travel. */
import type { ReactElement } from 'react';
import type { TakingView } from '../../../../puppet/puppetSettings.ts';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { currentBook } from '../../../state/bookStore.ts';
import { editPuppet } from '../../../state/puppetEdits.ts';
import { useBook } from '../../../state/use.ts';

function set(some: Partial<TakingView>): void {
  editPuppet({ view: { ...currentBook().puppet.view, ...some } }, 'place of the taking camera', 'view');
}

export function ViewPart(): ReactElement {
  const { azimuthDeg, elevationDeg } = useBook((b) => b.puppet.view);
  return (
    <section className="panel-part" aria-labelledby="view-title">
      <h3 id="view-title">The taking camera</h3>
      <p className="hint">Travel is told as this camera sees it: the hour on a clock face, toward the lens or away. 0° is in front of the set, + toward the puppet’s right.</p>
      <div className="field-grid">
        <MeasureField label="Stands round the set by" quantity="angle" value={azimuthDeg} min={-360} max={360} step={5} onCommit={(v) => v !== null && set({ azimuthDeg: v })} />
        <MeasureField label="Looks down by" quantity="angle" value={elevationDeg} min={-90} max={90} step={5} onCommit={(v) => v !== null && set({ elevationDeg: v })} />
      </div>
    </section>
  );
}
