/** Moves and pauses of what the rail shows, with lengths that can be changed, and the way to them. */
import type { ReactElement } from 'react';
import { figure } from '../../../../charts/figures.ts';
import { LIMB_WORDS } from '../../../../charts/moments/limbWords.ts';
import type { Plan } from '../../../../plan/plan.ts';
import type { NewMark } from '../../../../timing/marks/marks.ts';
import { lengthenSpan } from '../../../../timing/marks/spans.ts';
import { MINIMUM_JERK_EASE } from '../../../../timing/moments/ease.ts';
import type { MomentsOf, MoveOnSteps, PauseOnSteps } from '../../../../timing/moments/moments.ts';
import { NumberField } from '../../../fields/NumberField.tsx';
import { goToStep } from '../../../state/commands.ts';
import { editTiming, freshId } from '../../../state/timingEdits.ts';

type Moment = { readonly kind: 'move'; readonly is: MoveOnSteps } | { readonly kind: 'pause'; readonly is: PauseOnSteps };

const startS = ({ kind, is }: Moment): number => (kind === 'move' ? is.startS : is.fromS);
const endS = ({ kind, is }: Moment): number => (kind === 'move' ? is.endS : is.toS);
const fromStep = (moment: Moment): number => (moment.kind === 'move' ? moment.is.startStep : moment.is.fromStep);
const toStep = (moment: Moment): number => (moment.kind === 'move' ? moment.is.endStep : moment.is.toStep + 1);

/** Soft, even or snappy, with the minimum-jerk move as yardstick. */
function easeWord(share: number): string {
  const by = share / MINIMUM_JERK_EASE;
  return by < 0.75 ? 'quick' : by > 1.3 ? 'slow' : 'even';
}

export function MomentRows({ plan, of }: { readonly plan: Plan; readonly of: MomentsOf }): ReactElement {
  const moments: Moment[] = [
    ...plan.moments.moves.filter((move) => move.of === of).map((is): Moment => ({ kind: 'move', is })),
    ...plan.moments.pauses.filter((pause) => pause.of === of).map((is): Moment => ({ kind: 'pause', is })),
  ].sort((a, b) => fromStep(a) - fromStep(b));
  if (moments.length === 0) return <p className="hint">No moves and pauses of the {LIMB_WORDS[of]} were found in this part of the take.</p>;
  return (
    <div className="moment-rows">
      <table className="keys">
        <caption>Moves and pauses of the {LIMB_WORDS[of]}</caption>
        <thead><tr><th scope="col">what</th><th scope="col">from step</th><th scope="col">steps</th><th scope="col">about it</th></tr></thead>
        <tbody>{moments.map((moment, i) => <MomentRow key={`${moment.kind}${i}`} moment={moment} plan={plan} words={`${moment.kind} ${i + 1} of the ${LIMB_WORDS[of]}`} />)}</tbody>
      </table>
    </div>
  );
}

function MomentRow({ moment, plan, words }: { readonly moment: Moment; readonly plan: Plan; readonly words: string }): ReactElement {
  const first = Math.max(0, Math.min(plan.stepCount - 1, Math.round(fromStep(moment))));
  const steps = Math.max(1, Math.round(toStep(moment) - fromStep(moment)));
  const held = plan.holds[first] ?? plan.on;
  const setSteps = (wanted: number): void => {
    const [a, b] = [freshId('s'), freshId('e')];
    const from: NewMark = { id: a, sourceS: startS(moment), kind: 'start', name: moment.kind === 'move' ? 'move starts' : 'pause starts' };
    const to: NewMark = { id: b, sourceS: endS(moment), kind: 'end', name: moment.kind === 'move' ? 'move stops' : 'pause ends' };
    editTiming((timing, context) => lengthenSpan(timing, context, from, to, (wanted - steps) * held), { label: `${moment.kind} at step ${first + 1}: ${wanted} steps` });
  };
  return (
    <tr>
      <td><button type="button" className="small" title="Go there" onClick={() => goToStep(first)}>{moment.kind}</button></td>
      <td>{first + 1}</td>
      <td>
        <span className="choice-row">
          <button type="button" className="small" aria-label={`One step shorter: ${words}`} disabled={steps <= 1} onClick={() => setSteps(steps - 1)}>−</button>
          <NumberField hideLabel label={`Steps of the ${words}`} value={steps} min={1} max={20_000} step={1} decimals={0} widthCh={4} onCommit={(v) => v !== null && setSteps(Math.round(v))} />
          <button type="button" className="small" aria-label={`One step longer: ${words}`} onClick={() => setSteps(steps + 1)}>+</button>
        </span>
      </td>
      <td className="about">
        {moment.kind === 'move'
          ? `${figure(moment.is.sizeDeg, 0)}°, ${easeWord(moment.is.easeIn)} in, ${easeWord(moment.is.easeOut)} out`
          : moment.is.driftDeg > 0 ? `drifts ${figure(moment.is.driftDeg, 1)}°` : ''}
      </td>
    </tr>
  );
}
