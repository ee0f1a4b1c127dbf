/** How much slower a figure must move to read as large: offered with its reason, taken over by a press. */
import type { ReactElement } from 'react';
import { figure } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { SETTING_LIMITS } from '../../../../plan/settings.ts';
import { timeScaleOffered, timeScaleReason } from '../../../../puppet/timeScale.ts';
import { NumberField } from '../../../fields/NumberField.tsx';
import { editSettings } from '../../../state/bookStore.ts';
import { editPuppet } from '../../../state/puppetEdits.ts';
import { useBook, useSetting } from '../../../state/use.ts';

export function TimeScaleOffer({ plan }: { readonly plan: Plan }): ReactElement {
  const apparent = useBook((b) => b.puppet.apparentHeightM);
  const now = useSetting('timeScale');
  const known = Number.isFinite(plan.performerHeightM) && plan.performerHeightM > 0;
  const offered = apparent === null || !known ? null : Math.max(SETTING_LIMITS.timeScale.min, Math.min(SETTING_LIMITS.timeScale.max, Math.round(timeScaleOffered(apparent, plan.performerHeightM) * 1000) / 1000));
  return (
    <section className="panel-part" aria-labelledby="scale-title">
      <h3 id="scale-title">How tall it is to look</h3>
      <div className="field-pair">
        <NumberField label="Apparent height" unit="m" value={apparent} emptyWord="as performer" widthCh={16} min={0.001} max={10000} step={0.1} decimals={3} onCommit={(v) => editPuppet({ apparentHeightM: v }, 'apparent height', 'apparentHeight')} />
        {offered === null ? null : (
          <button type="button" className="lamp" disabled={Math.abs(offered - now) < 5e-4} onClick={() => editSettings({ timeScale: offered }, { label: `time scale ×${figure(offered, 2)} for ${figure(apparent ?? undefined, 2)} m` })}>
            {Math.abs(offered - now) < 5e-4 ? `Time scale is × ${figure(offered, 2)}` : `Set time scale × ${figure(offered, 2)}`}
          </button>
        )}
      </div>
      <p className="hint">{apparent === null || !known ? 'A puppet that plays a giant moves slower, one that plays a mouse faster. Say how tall it is to look.' : timeScaleReason(apparent, plan.performerHeightM)}</p>
    </section>
  );
}
