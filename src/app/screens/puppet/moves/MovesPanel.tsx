/** What to do at the step of the playhead, joint by joint. The figures are painted, not rendered: the playhead may run. */
import { type ReactElement, useEffect, useRef } from 'react';
import { incrementCertaintyAt } from '../../../../charts/certainty.ts';
import type { Plan } from '../../../../plan/plan.ts';
import type { CompleteArmature } from '../../../../puppet/complete.ts';
import { paintWithPlayhead } from '../../../state/playhead.ts';
import { JointList } from '../JointList.tsx';
import { DatumList } from './DatumList.tsx';
import { FlagList } from './FlagList.tsx';
import { flagsAt } from './flags.ts';
import { moveWords } from './moveWords.ts';
import { TravelList } from './TravelList.tsx';

export function MovesPanel({ plan, armature }: { readonly plan: Plan; readonly armature: CompleteArmature }): ReactElement {
  const title = useRef<HTMLHeadingElement>(null);
  const cells = useRef<(HTMLSpanElement | null)[]>([]);
  useEffect(
    () =>
      paintWithPlayhead(({ step }) => {
        const index = Math.min(step, plan.stepCount - 1);
        if (title.current !== null) title.current.textContent = index === 0 ? 'Step 1: the pose to begin with' : `Step ${index + 1}: what to move`;
        armature.joints.forEach((_, p) => {
          const cell = cells.current[p];
          if (cell === null || cell === undefined) return;
          const words = moveWords(plan, index, p);
          const flags = flagsAt(plan, index, p);
          cell.textContent = `${flags.map(({ sign }) => sign).join('')} ${words ?? '·'}`.trim();
          cell.title = flags.map((flag) => flag.words).join(', ');
          cell.classList.toggle('cell-unsure', words !== null && incrementCertaintyAt(plan, index, p) === 'unsure');
          cell.classList.toggle('stays', words === null);
        });
      }),
    [plan, armature],
  );
  return (
    <section className="panel" aria-labelledby="moves-title">
      <h2 id="moves-title" ref={title}>Step</h2>
      <JointList
        armature={armature}
        label="Joints and how much each moves"
        about={(p) => (plan.joints[p]?.observable === false ? <em>moved by nothing</em> : <span ref={(element) => { cells.current[p] = element; }} className="move" />)}
      />
      <p className="hint">+ bends or turns by the right hand about the axis, − the other way. A dot: stays. Hatched: unsure. –: not known.</p>
      <TravelList plan={plan} />
      <DatumList plan={plan} />
      <FlagList plan={plan} />
    </section>
  );
}
