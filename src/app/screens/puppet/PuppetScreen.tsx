/** Puppet: the puppet's own body, and what a hand does to it at each step. */
import { type ReactElement, useMemo } from 'react';
import { useStore } from 'zustand';
import type { Plan } from '../../../plan/plan.ts';
import type { CompleteArmature } from '../../../puppet/complete.ts';
import { completeArmature } from '../../../puppet/completeArmature.ts';
import { Bench } from '../../ladder/Bench.tsx';
import { puppetView } from '../../puppet3d/puppetView.ts';
import { useArmature } from '../../state/puppetEdits.ts';
import { useSession } from '../../state/use.ts';
import { NoPlan } from '../sheet/NoPlan.tsx';
import { CurveColumn } from './curves/CurveColumn.tsx';
import { CurvesPanel } from './curves/CurvesPanel.tsx';
import { useCurve } from './curves/useCurve.ts';
import { MeasuresPanel } from './measures/MeasuresPanel.tsx';
import { RestDrawing } from './measures/RestDrawing.tsx';
import { MovesPanel } from './moves/MovesPanel.tsx';
import { PuppetHead } from './PuppetHead.tsx';
import { PuppetPicture } from './PuppetPicture.tsx';
import { isPlanOf, sceneAtRest, sceneOfPlan } from './puppetScene.ts';
import { SourcesPanel } from './sources/SourcesPanel.tsx';

export function PuppetScreen(): ReactElement {
  const document = useArmature();
  const armature = completeArmature(document);
  const made = useSession((s) => s.plan);
  const part = useStore(puppetView, (s) => s.part);
  // After an edit the former plan stays until the new one comes; it may be another puppet's.
  const plan = made !== null && isPlanOf(made, armature) ? made : null;
  const scene = useMemo(() => (plan === null ? sceneAtRest(armature) : sceneOfPlan(plan, armature)), [plan, armature]);
  return (
    <main className="screen screen-puppet">
      <Bench across={false} head={<PuppetHead armature={armature} />}>
        {part === 'curves' && plan !== null ? <WithCurve plan={plan} armature={armature} scene={scene} /> : (
          <div className="puppet">
            {part === 'measures' ? <RestDrawing armature={armature} /> : <PuppetPicture scene={scene} />}
            <div className="puppet-side">
              {part === 'measures' ? <MeasuresPanel document={document} armature={armature} /> : plan === null ? <NoPlan /> : part === 'moves' ? <MovesPanel plan={plan} armature={armature} /> : <SourcesPanel plan={plan} armature={armature} />}
            </div>
          </div>
        )}
      </Bench>
    </main>
  );
}

/** The curve runs along the rows; the picture and the keys stay in sight beside it. */
function WithCurve({ plan, armature, scene }: { readonly plan: Plan; readonly armature: CompleteArmature; readonly scene: ReturnType<typeof sceneOfPlan> }): ReactElement {
  const curve = useCurve(plan, armature);
  return (
    <div className="puppet-rows">
      <CurveColumn plan={plan} curve={curve} />
      <div className="puppet">
        <PuppetPicture scene={scene} />
        <div className="puppet-side"><CurvesPanel plan={plan} armature={armature} curve={curve} /></div>
      </div>
    </div>
  );
}
