/** Poise: would each step stand, and does it look right in motion? */
import { type ReactElement, useMemo } from 'react';
import { useStore } from 'zustand';
import type { Plan } from '../../../plan/plan.ts';
import { completeArmature } from '../../../puppet/completeArmature.ts';
import { Bench } from '../../ladder/Bench.tsx';
import { POISE_PANELS, poiseView, type PoisePanel } from '../../state/poiseView.ts';
import { useArmature } from '../../state/puppetEdits.ts';
import { useSession } from '../../state/use.ts';
import { isPlanOf } from '../puppet/puppetScene.ts';
import { NoPlan } from '../sheet/NoPlan.tsx';
import { AirPanel } from './AirPanel.tsx';
import { CarriesPanel } from './CarriesPanel.tsx';
import { FigurePanel } from './FigurePanel.tsx';
import { MarginColumn, MarginHead } from './MarginColumn.tsx';
import { NeedsPanel } from './NeedsPanel.tsx';
import { PlanView } from './PlanView.tsx';
import { TouchesPanel } from './TouchesPanel.tsx';
import { useCompared } from './useCompared.ts';
import { VerdictPanel } from './VerdictPanel.tsx';

const PANELS: Readonly<Record<PoisePanel, { readonly words: string; readonly about: string; readonly Panel: (props: { readonly plan: Plan }) => ReactElement }>> = {
  verdict: { words: 'Verdict', about: 'this step in words, the spans on one leg, and corrections', Panel: VerdictPanel },
  needs: { words: 'Hardware', about: 'steps that need a tie-down, and what it must hold', Panel: NeedsPanel },
  air: { words: 'In the air', about: 'jumps and falls against free fall', Panel: AirPanel },
  touches: { words: 'Touches', about: 'what stands on the set, and what is tied down', Panel: TouchesPanel },
  carries: { words: 'Carries', about: 'props, and how balance is judged', Panel: CarriesPanel },
};

export function PoiseScreen(): ReactElement {
  const made = useSession((s) => s.plan);
  const document = useArmature();
  const armature = useMemo(() => completeArmature(document), [document]);
  // after an edit of the puppet the former plan stays until the new one comes
  const plan = useMemo(() => (made !== null && isPlanOf(made, armature) ? made : null), [made, armature]);
  const compared = useCompared(plan);
  const name = useStore(poiseView, (s) => s.panel);
  const { Panel } = PANELS[name];
  return (
    <main className="screen screen-poise">
      <h1 className="unseen">Poise</h1>
      <div className="poise">
        <Bench across head={plan === null ? null : <MarginHead plan={plan} />}>
          {plan === null ? <NoPlan /> : <MarginColumn plan={plan} />}
        </Bench>
        {plan === null ? null : (
          <>
            <div className="poise-pictures">
              <FigurePanel plan={plan} armature={armature} compared={compared} />
              <PlanView plan={plan} armature={armature} compared={compared} />
            </div>
            <aside className="poise-side">
              <div className="tabs panel-tabs" role="group" aria-label="Beside the rows">
                {POISE_PANELS.map((one) => <button key={one} type="button" aria-pressed={one === name} title={PANELS[one].about} onClick={() => poiseView.setState({ panel: one })}>{PANELS[one].words}</button>)}
              </div>
              <div className="side-panel"><Panel plan={plan} /></div>
            </aside>
          </>
        )}
      </div>
    </main>
  );
}
