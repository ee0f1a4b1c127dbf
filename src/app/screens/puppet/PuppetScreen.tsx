/** Puppet: the puppet's own body, and what a hand does to it at each step. */
import { type ReactElement, useMemo } from 'react';
import { useStore } from 'zustand';
import { completeArmature } from '../../../puppet/completeArmature.ts';
import { Bench } from '../../ladder/Bench.tsx';
import { puppetView } from '../../puppet3d/puppetView.ts';
import { useArmature } from '../../state/puppetEdits.ts';
import { useSession } from '../../state/use.ts';
import { NoPlan } from '../sheet/NoPlan.tsx';
import { MeasuresPanel } from './measures/MeasuresPanel.tsx';
import { RestDrawing } from './measures/RestDrawing.tsx';
import { MovesPanel } from './MovesPanel.tsx';
import { PuppetHead } from './PuppetHead.tsx';
import { PuppetPicture } from './PuppetPicture.tsx';
import { isPlanOf, sceneAtRest, sceneOfPlan } from './puppetScene.ts';

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
        <div className="puppet-rows">
          <div className="puppet">
            {part === 'measures' ? <RestDrawing armature={armature} /> : <PuppetPicture scene={scene} />}
            <div className="puppet-side">
              {part === 'measures' ? <MeasuresPanel document={document} armature={armature} /> : plan === null ? <NoPlan /> : null}
              {part === 'moves' && plan !== null ? <MovesPanel plan={plan} armature={armature} /> : null}
            </div>
          </div>
        </div>
      </Bench>
    </main>
  );
}
