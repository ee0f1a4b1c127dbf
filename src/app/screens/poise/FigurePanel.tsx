/** The puppet in three dimensions with its plumb line and its base of support on the floor; hatched beside it, the pose before or after a correction. */
import { type ReactElement, useEffect, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import { signedFigure } from '../../../charts/figures.ts';
import { nameOfView, type ViewName } from '../../../charts/figure/view.ts';
import type { Plumb } from '../../../charts/figure/plumb.ts';
import { verdictsAt } from '../../../charts/poise/verdictWords.ts';
import { readVec3 } from '../../../numeric/vector3.ts';
import type { Plan } from '../../../plan/plan.ts';
import type { CompleteArmature } from '../../../puppet/complete.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Key } from '../../fields/Key.tsx';
import { puppetView } from '../../puppet3d/puppetView.ts';
import type { PuppetScene } from '../../puppet3d/scene.ts';
import type { CommandName } from '../../state/commandNames.ts';
import { runCommand } from '../../state/commands.ts';
import { paintWithPlayhead } from '../../state/playhead.ts';
import { PuppetPicture } from '../puppet/PuppetPicture.tsx';
import { sceneOfPlan } from '../puppet/puppetScene.ts';
import type { Compared } from './useCompared.ts';
import { facingDeg } from './facing.ts';

const VIEW_COMMANDS: Readonly<Record<ViewName, readonly [string, CommandName]>> = {
  front: ['Front', 'viewFront'], side: ['Side', 'viewSide'], top: ['Top', 'viewTop'], turned: ['Turned', 'viewTurned'],
};

function plumbsOf({ balance: { massMm, support } }: Plan): (step: number) => Plumb {
  return (step) => ({ massMm: readVec3(massMm, step), supportMm: support[step] ?? [] });
}

export interface FigurePanelProps {
  readonly plan: Plan;
  readonly armature: CompleteArmature;
  readonly compared: Compared | null;
}

export function FigurePanel({ plan, armature, compared }: FigurePanelProps): ReactElement {
  const own = useMemo(() => sceneOfPlan(plan, armature), [plan, armature]);
  const scene = useMemo((): PuppetScene => ({
    ...own,
    plumbAt: plumbsOf(plan),
    other: compared === null ? null : {
      poseAt: sceneOfPlan(compared.other, armature).poseAt, plumbAt: plumbsOf(compared.other),
      words: compared.which === 'after' ? 'after' : 'before', nowWords: compared.which === 'after' ? 'now' : 'corrected',
    },
  }), [own, plan, armature, compared]);
  return (
    <section className="poise-figure" aria-label="Figure">
      <PuppetPicture scene={scene} says="its plumb line and its base of support; the Verdict panel says them in words" below={<Below plan={plan} compared={compared} />} />
    </section>
  );
}

function Below({ plan, compared }: { readonly plan: Plan; readonly compared: Compared | null }): ReactElement {
  const view = useStore(puppetView, (s) => nameOfView(s.view));
  return (
    <>
      <div className="view-buttons">
        <Choice
          label="Seen from"
          value={view}
          options={(Object.keys(VIEW_COMMANDS) as ViewName[]).map((value) => ({ value, words: <>{VIEW_COMMANDS[value][0]} <Key of={VIEW_COMMANDS[value][1]} /></> }))}
          onChoose={(value) => runCommand(VIEW_COMMANDS[value][1])}
        />
      </div>
      {compared === null ? null : <Comparison plan={plan} compared={compared} />}
      <figcaption className="hint">Ring: centre of mass. Cross: where its plumb line meets the floor. It stands where the cross lies inside the outline.</figcaption>
    </>
  );
}

/** What is hatched, and the margin of the playhead's step before and after, in words. */
function Comparison({ plan, compared }: { readonly plan: Plan; readonly compared: Compared }): ReactElement {
  const words = useRef<HTMLSpanElement>(null);
  useEffect(() => paintWithPlayhead(({ step }) => {
    if (words.current === null) return;
    const at = Math.min(step, plan.stepCount - 1);
    const said = (of: Plan): string => {
      const { word } = verdictsAt(of.balance, at, facingDeg(of, at)).stand;
      const mm = of.balance.standMm[at];
      return mm === undefined || Number.isNaN(mm) ? word : `${signedFigure(mm, 1)} mm, ${word}`;
    };
    const [before, after] = compared.which === 'after' ? [plan, compared.other] : [compared.other, plan];
    words.current.textContent = `Before: ${said(before)}. After: ${said(after)}.`;
  }), [plan, compared]);
  return (
    <p className="comparison">
      <span className="legend"><span className="sign sign-before" aria-hidden="true" /> {compared.which === 'after' ? 'hatched, dashed line: as it would stand' : 'hatched, dashed line: before it was corrected'}</span>
      <span ref={words} />
    </p>
  );
}
