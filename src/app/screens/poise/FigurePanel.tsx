/** The puppet in three dimensions with its plumb line and its base of support on the floor. */
import { type ReactElement, useMemo } from 'react';
import { readVec3 } from '../../../numeric/vector3.ts';
import type { Plan } from '../../../plan/plan.ts';
import { completeArmature } from '../../../puppet/completeArmature.ts';
import type { PuppetScene } from '../../puppet3d/scene.ts';
import { useArmature } from '../../state/puppetEdits.ts';
import { PuppetPicture } from '../puppet/PuppetPicture.tsx';
import { sceneOfPlan } from '../puppet/puppetScene.ts';

export function FigurePanel({ plan }: { readonly plan: Plan }): ReactElement {
  const document = useArmature();
  const scene = useMemo((): PuppetScene => {
    const { massMm, support } = plan.balance;
    return { ...sceneOfPlan(plan, completeArmature(document)), plumbAt: (step) => ({ massMm: readVec3(massMm, step), supportMm: support[step] ?? [] }) };
  }, [plan, document]);
  return (
    <section className="panel poise-figure" aria-label="Figure">
      <p className="hint">Ring: centre of mass. Cross: where its plumb line meets the floor. It stands where the cross lies inside the outline.</p>
      <PuppetPicture scene={scene} />
    </section>
  );
}
