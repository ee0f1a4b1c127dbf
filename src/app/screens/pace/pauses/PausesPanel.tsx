/** How pauses are kept alive, which joints stay still, and what is dead all the same. */
import { type ReactElement, useMemo } from 'react';
import { figure, jointWords } from '../../../../charts/figures.ts';
import { LIMB_WORDS } from '../../../../charts/moments/limbWords.ts';
import { deadHolds } from '../../../../plan/deadHolds.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { LEAST_ALIVE_STEPS, MOST_DRIFT_DEG } from '../../../../puppet/alive/aliveTurns.ts';
import { LIMB_JOINTS, type PauseOnSteps } from '../../../../timing/moments/moments.ts';
import { ALIVE_PATTERNS, ALIVE_STRENGTHS, MOST_STILL_LIMITS, type AlivePattern, type AliveStrength } from '../../../../timing/timingSettings.ts';
import { Choice } from '../../../fields/Choice.tsx';
import { NumberField } from '../../../fields/NumberField.tsx';
import { goToStep } from '../../../state/commands.ts';
import { editTiming } from '../../../state/timingEdits.ts';
import { useBook } from '../../../state/use.ts';

const PATTERN_ABOUT: Readonly<Record<AlivePattern, string>> = {
  sway: 'The performer’s own wandering in the pause, enlarged until a hand can make it.',
  breath: 'Fourteen breaths a minute, in spine, chest, shoulders and head.',
  'weight shift': 'A lean from side to side every four seconds.',
};

export function PausesPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const alive = useBook((b) => b.timing.alive);
  const dead = useMemo(() => deadHolds(plan, alive.mostStill), [plan, alive.mostStill]);
  const set = (some: Partial<typeof alive>, label: string): void => {
    editTiming((timing) => ({ ...timing, alive: { ...timing.alive, ...some } }), { label });
  };
  const pauses = plan.moments.pauses.filter(({ of }) => of !== 'body').sort((a, b) => a.fromStep - b.fromStep);
  /** In how many of the steps a joint of the limb itself is moved. */
  const movesIn = ({ of, fromStep, toStep }: PauseOnSteps): number => {
    const width = plan.joints.length;
    const own = plan.joints.flatMap(({ source }, p) => (source !== null && of !== 'body' && LIMB_JOINTS[of].includes(source) ? [p] : []));
    let steps = 0;
    for (let s = fromStep + 1; s <= toStep; s++) if (own.some((p) => Math.abs(plan.incrementDeg[s * width + p]!) > 0)) steps += 1;
    return steps;
  };
  return (
    <section className="panel" aria-label="Pauses">
      <Choice<AliveStrength> label="Keep pauses alive" value={alive.strength} options={ALIVE_STRENGTHS.map((value) => ({ value, words: value }))} onChoose={(strength) => set({ strength }, `pauses ${strength === 'off' ? 'as performed' : `kept alive, ${strength}`}`)} />
      <Choice<AlivePattern> label="By" value={alive.pattern} disabled={alive.strength === 'off'} options={ALIVE_PATTERNS.map((value) => ({ value, words: value }))} onChoose={(pattern) => set({ pattern }, `pauses kept alive by ${pattern}`)} />
      <NumberField label="Steps that may be alike" unit="steps" value={alive.mostStill} {...MOST_STILL_LIMITS} step={1} decimals={0} onCommit={(mostStill) => { if (mostStill !== null) set({ mostStill }, `at most ${mostStill} steps alike in pauses`); }} />
      <p className="hint">{PATTERN_ABOUT[alive.pattern]} The moves are whole smallest moves of the joints, and every joint comes back to the held pose.{alive.strength === 'off' ? '' : ` No joint drifts farther than ${MOST_DRIFT_DEG[alive.strength]}°, and no more than ${alive.mostStill} steps are the same where one can move.`}</p>
      {dead.length === 0 ? <p className="hint">No dead hold: nothing stands for more than {alive.mostStill} steps.</p> : (
        <table className="keys">
          <caption>Dead holds: nothing moves here</caption>
          <thead><tr><th scope="col">steps</th><th scope="col">length</th><th scope="col">seconds</th></tr></thead>
          <tbody>
            {dead.map(({ fromStep, toStep }) => (
              <tr key={fromStep}>
                <td><button type="button" className="small" onClick={() => goToStep(fromStep)}>{fromStep + 1}–{toStep + 1}</button></td>
                <td>{toStep - fromStep + 1} steps</td>
                <td>{figure(((plan.exposure[toStep] ?? 0) + (plan.holds[toStep] ?? 0) - (plan.exposure[fromStep] ?? 0)) / plan.rate, 2)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      {pauses.length === 0 ? <p className="hint">No limb pauses in this part of the take. A pose is held with “Hold this pose” in Retime.</p> : (
        <table className="keys">
          <caption>Pauses, limb by limb</caption>
          <thead><tr><th scope="col">limb</th><th scope="col">steps</th><th scope="col">length</th><th scope="col">about it</th></tr></thead>
          <tbody>
            {pauses.map((pause) => {
              const { of, fromStep, toStep } = pause;
              const count = toStep - fromStep + 1;
              return (
                <tr key={`${of}${fromStep}`}>
                  <td>{LIMB_WORDS[of]}</td>
                  <td><button type="button" className="small" onClick={() => goToStep(fromStep)}>{fromStep + 1}–{toStep + 1}</button></td>
                  <td>{count} steps</td>
                  <td className="about">{alive.strength !== 'off' && count < LEAST_ALIVE_STEPS ? 'short: left as it is' : `its joints move in ${movesIn(pause)} of them`}</td>
                </tr>
              );
            })}
          </tbody>
        </table>
      )}
      <details className="snap-part">
        <summary>Joints that stay still{alive.frozen.length > 0 ? `: ${alive.frozen.length}` : ''}</summary>
        <p className="hint">A hand that rests on a table should not stir. What is chosen here gets no moves of its own; what carries it may still move it.</p>
        <div className="snap-joints">
          {plan.joints.map(({ name }) => (
            <label key={name} className="check"><input type="checkbox" checked={alive.frozen.includes(name)} onChange={() => set({ frozen: alive.frozen.includes(name) ? alive.frozen.filter((one) => one !== name) : [...alive.frozen, name] }, `${jointWords(name)} ${alive.frozen.includes(name) ? 'may stir' : 'stays still'} in pauses`)} /><span>{jointWords(name)}</span></label>
          ))}
        </div>
      </details>
    </section>
  );
}
