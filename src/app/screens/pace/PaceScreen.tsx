/** Pace: how fast the film runs and how long a pose is held, and what that does to each joint, row by row. */
import { type ReactElement, useMemo } from 'react';
import { mostMoving } from '../../../charts/amount.ts';
import { Bench } from '../../ladder/Bench.tsx';
import { Picture } from '../../look/Picture.tsx';
import { useSession } from '../../state/use.ts';
import { NoPlan } from '../sheet/NoPlan.tsx';
import { JointColumns } from './JointColumns.tsx';
import { JointHeads } from './JointHeads.tsx';
import { PaceControls } from './PaceControls.tsx';
import { useColumns } from './useColumns.ts';

/** How many joints are shown until a person chooses. */
export const SHOWN_AT_FIRST = 6;

export function PaceScreen(): ReactElement {
  const plan = useSession((s) => s.plan);
  const chosen = useSession((s) => s.joints);
  const shown = useMemo(() => {
    if (plan === null) return [];
    const names = new Set(chosen ?? mostMoving(plan, SHOWN_AT_FIRST));
    return plan.joints.flatMap((joint, index) => (names.has(joint.name) && joint.observable ? [index] : []));
  }, [plan, chosen]);
  const columns = useColumns(plan, shown);
  return (
    <main className="screen screen-pace">
      <h1 className="unseen">Pace</h1>
      <PaceControls shown={shown} />
      <div className="pace">
        <Bench across head={plan === null ? null : <JointHeads columns={columns} />}>
          {plan === null ? <NoPlan /> : <JointColumns columns={columns} />}
        </Bench>
        {plan === null ? null : (
          <aside className="pace-picture" aria-label="The footage at the playhead">
            <Picture label="The footage at the playhead with the skeleton" />
          </aside>
        )}
      </div>
    </main>
  );
}
