/** Pace: what moves when, row by row, and how it is retimed by hand. */
import { memo, type ReactElement, useDeferredValue, useMemo } from 'react';
import { useStore } from 'zustand';
import { mostMoving } from '../../../charts/amount.ts';
import type { Plan } from '../../../plan/plan.ts';
import { Bench } from '../../ladder/Bench.tsx';
import { Picture } from '../../look/Picture.tsx';
import { player } from '../../play/player.ts';
import { useTapKey } from '../../play/useTapKey.ts';
import { paceView } from '../../state/paceView.ts';
import { useSeenPlan, useSession } from '../../state/use.ts';
import { NoPlan } from '../sheet/NoPlan.tsx';
import { JointColumns } from './JointColumns.tsx';
import { JointHeads } from './JointHeads.tsx';
import { PaceControls } from './PaceControls.tsx';
import { PANELS } from './panels.ts';
import { StagePicture } from './play/StagePicture.tsx';
import { StopwatchPart } from './play/StopwatchPart.tsx';
import { Rail, RailHead } from './rail/Rail.tsx';
import { ReadoutsBody, ReadoutsHead, useReadoutColumns } from './readouts/ReadoutsView.tsx';
import { SpanHead, SpanStrip } from './span/SpanStrip.tsx';
import { useColumns } from './useColumns.ts';
import { VIEWS } from './views.ts';

/** How many joints are shown until a person chooses. */
export const SHOWN_AT_FIRST = 4;

export function PaceScreen(): ReactElement {
  const plan = useSession((s) => s.plan);
  const seen = useSeenPlan();
  // What stands beside the rows follows a moment later: the rows must not wait for it.
  const settled = useDeferredValue(plan) ?? plan;
  const chosen = useSession((s) => s.joints);
  const view = useStore(paceView, (s) => s.view);
  useTapKey();
  const shown = useMemo(() => {
    if (plan === null) return [];
    const names = new Set(chosen ?? mostMoving(plan, SHOWN_AT_FIRST));
    return plan.joints.flatMap((joint, index) => (names.has(joint.name) && joint.observable ? [index] : []));
  }, [plan, chosen]);
  const other = VIEWS.find(({ name }) => name === view);
  return (
    <main className="screen screen-pace">
      <h1 className="unseen">Pace</h1>
      <PaceControls shown={shown} />
      <div className="pace">
        {seen === null ? <Bench across head={null}><NoPlan /></Bench> : view === 'readouts' ? <WithReadouts plan={plan ?? seen} seen={seen} /> : other === undefined ? <WithJoints plan={seen} shown={shown} /> : (
          <Bench across head={<div className="pace-head"><RailHead plan={seen} /><SpanHead /><other.Head plan={seen} /></div>}>
            <div className="pace-rows"><Rail plan={seen} /><SpanStrip plan={seen} /><other.Body plan={seen} /></div>
          </Bench>
        )}
        {plan === null || settled === null ? <BareSide /> : <Side plan={settled} />}
      </div>
    </main>
  );
}

function WithJoints({ plan, shown }: { readonly plan: Plan; readonly shown: readonly number[] }): ReactElement {
  const columns = useColumns(plan, shown);
  return (
    <Bench across head={<div className="pace-head"><RailHead plan={plan} /><SpanHead /><JointHeads columns={columns} /></div>}>
      <div className="pace-rows"><Rail plan={plan} /><SpanStrip plan={plan} /><JointColumns columns={columns} /></div>
    </Bench>
  );
}

/** @param props.plan whose readouts they are; `seen` may be one that is only foreseen */
function WithReadouts({ plan, seen }: { readonly plan: Plan; readonly seen: Plan }): ReactElement {
  const columns = useReadoutColumns(plan);
  return (
    <Bench across head={<div className="pace-head"><RailHead plan={seen} /><SpanHead /><ReadoutsHead columns={columns} /></div>}>
      <div className="pace-rows"><Rail plan={seen} /><SpanStrip plan={seen} /><ReadoutsBody columns={columns} /></div>
    </Bench>
  );
}

/** The picture and, under it, one of the panels; what is foreseen of the rows does not concern it. */
const Side = memo(function Side({ plan }: { readonly plan: Plan }): ReactElement {
  const name = useStore(paceView, (s) => s.panel);
  const panel = PANELS.find((one) => one.name === name) ?? PANELS[0]!;
  const shows = useStore(player, (s) => s.shows);
  const playing = panel.name === 'play';
  return (
    <aside className={playing ? 'pace-side pace-side-play' : 'pace-side'}>
      <div className="pace-picture">
        {playing && shows === 'puppet' ? null : <Picture fill label="The footage at the playhead with the skeleton" />}
        {playing && shows !== 'take' ? <StagePicture plan={plan} /> : null}
      </div>
      <div className="tabs panel-tabs" role="group" aria-label="Beside the rows">
        {PANELS.map((one) => <button key={one.name} type="button" aria-pressed={one.name === panel.name} title={one.about} onClick={() => paceView.setState({ panel: one.name })}>{one.words}</button>)}
      </div>
      <div className="side-panel"><panel.Panel plan={plan} /></div>
    </aside>
  );
});

/** Without a plan an action can still be tapped along. */
function BareSide(): ReactElement {
  return (
    <aside className="pace-side pace-side-bare">
      <div className="side-panel"><div className="panel"><StopwatchPart plan={null} /></div></div>
    </aside>
  );
}
