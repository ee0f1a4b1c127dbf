/** What stands on the set and what is tied down, over spans of steps. */
import { type ReactElement, useState } from 'react';
import { jointWords } from '../../../charts/figures.ts';
import type { Plan } from '../../../plan/plan.ts';
import { completeArmature } from '../../../puppet/completeArmature.ts';
import { Select } from '../../fields/Select.tsx';
import { editPoise, spanOfSteps } from '../../state/poiseEdits.ts';
import { useArmature } from '../../state/puppetEdits.ts';
import { useBook } from '../../state/use.ts';
import { Caution } from './Caution.tsx';
import { SpanFields, type StepSpan, stepsOfSpan } from './SpanFields.tsx';

export function TouchesPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const { touches, tieDowns } = useBook((b) => b.poise);
  const { bones } = completeArmature(useArmature());
  const feet = bones.filter(({ sole }) => sole !== null).map(({ name }) => name);
  const [bone, setBone] = useState(feet[0] ?? bones[bones.length - 1]!.name);
  const [span, setSpan] = useState<StepSpan>([1, plan.stepCount]);
  const isFoot = feet.includes(bone);
  const steps = `steps ${span[0]} to ${span[1]}`;
  const where = (): { fromS: number; toS: number } => spanOfSteps(plan, span[0] - 1, span[1] - 1);
  const say = (does: boolean): void => editPoise((poise) => ({ ...poise, touches: [...poise.touches, { bone, ...where(), touches: does }] }), { label: `${jointWords(bone)} ${does ? 'touches' : 'does not touch'}, ${steps}` });
  const tie = (): void => editPoise((poise) => ({ ...poise, tieDowns: [...poise.tieDowns, { foot: bone, ...where() }] }), { label: `${jointWords(bone)} tied down, ${steps}` });
  return (
    <section className="panel" aria-label="Touches">
      <p className="hint">Feet stand where the take has them stand. Say here where that is wrong, where a hand or another bone bears on the set, and where a foot is tied down.</p>
      <Select label="What" value={bone} options={[...bones].sort((a, b) => Number(feet.includes(b.name)) - Number(feet.includes(a.name))).map(({ name }) => ({ value: name, words: jointWords(name) }))} onChoose={setBone} />
      <SpanFields plan={plan} span={span} onChange={setSpan} />
      <div className="buttons">
        <button type="button" onClick={() => say(true)}>{isFoot ? 'Stands here' : 'Bears on the set'}</button>
        <button type="button" onClick={() => say(false)}>{isFoot ? 'Does not stand' : 'Does not touch'}</button>
        <button type="button" disabled={!isFoot} onClick={tie}>Tied down</button>
      </div>
      {tieDowns.length > 0 ? <Caution /> : null}
      {touches.length + tieDowns.length === 0 ? <p className="hint">Nothing said yet.</p> : (
        <table className="keys">
          <caption>What was said</caption>
          <thead><tr><th scope="col">bone</th><th scope="col">steps</th><th scope="col">what</th><th scope="col"><span className="unseen">take back</span></th></tr></thead>
          <tbody>
            {touches.map((touch, k) => <Row key={`t${k}`} name={touch.bone} steps={stepsOfSpan(plan, touch.fromS, touch.toS)} what={touch.touches ? 'touches' : 'does not touch'} onRemove={() => editPoise((poise) => ({ ...poise, touches: poise.touches.filter((_, i) => i !== k) }), { label: `what ${jointWords(touch.bone)} does taken back` })} />)}
            {tieDowns.map((tied, k) => <Row key={`d${k}`} name={tied.foot} steps={stepsOfSpan(plan, tied.fromS, tied.toS)} what="tied down" onRemove={() => editPoise((poise) => ({ ...poise, tieDowns: poise.tieDowns.filter((_, i) => i !== k) }), { label: `tie-down of ${jointWords(tied.foot)} taken away` })} />)}
          </tbody>
        </table>
      )}
    </section>
  );
}

function Row({ name, steps, what, onRemove }: { readonly name: string; readonly steps: StepSpan; readonly what: string; readonly onRemove: () => void }): ReactElement {
  return (
    <tr>
      <td>{jointWords(name)}</td>
      <td>{steps[0]}–{steps[1]}</td>
      <td>{what}</td>
      <td><button type="button" className="small" aria-label={`Take back: ${jointWords(name)} ${what}`} onClick={onRemove}>✕</button></td>
    </tr>
  );
}
