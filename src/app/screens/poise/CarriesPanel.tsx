/** Props that the puppet carries, and how balance is judged. */
import { type ReactElement, useState } from 'react';
import { figure, jointWords } from '../../../charts/figures.ts';
import { MASS_TABLES, type Prop } from '../../../balance/poiseSettings.ts';
import type { Plan } from '../../../plan/plan.ts';
import { completeArmature } from '../../../puppet/completeArmature.ts';
import { MeasureField } from '../../fields/MeasureField.tsx';
import { NumberField } from '../../fields/NumberField.tsx';
import { Select } from '../../fields/Select.tsx';
import { TextField } from '../../fields/TextField.tsx';
import { editPoise, spanOfSteps } from '../../state/poiseEdits.ts';
import { useArmature } from '../../state/puppetEdits.ts';
import { useBook } from '../../state/use.ts';
import { SpanFields, type StepSpan, stepsOfSpan } from './SpanFields.tsx';

const AXES = ['forward', 'up', 'right'] as const;
const FAR_MM = 1000;

export function CarriesPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const { props, table, pendulumFactor, marginMm } = useBook((b) => b.poise);
  const { bones } = completeArmature(useArmature());
  const hand = bones.find(({ name }) => /hand/i.test(name))?.name ?? bones[bones.length - 1]!.name;
  const [draft, setDraft] = useState<Pick<Prop, 'name' | 'bone' | 'massG'>>({ name: 'prop', bone: hand, massG: 10 });
  const [span, setSpan] = useState<StepSpan>([1, plan.stepCount]);
  const add = (): void => {
    const bone = bones.find(({ name }) => name === draft.bone)!;
    const end = bone.along.map((v) => Math.round(v * bone.lengthMm * 10) / 10) as unknown as Prop['atMm'];
    editPoise((poise) => ({ ...poise, props: [...poise.props, { ...draft, atMm: end, ...spanOfSteps(plan, span[0] - 1, span[1] - 1) }] }), { label: `carries ${draft.name}` });
  };
  const change = (k: number, some: Partial<Prop>, label: string): void => editPoise((poise) => ({ ...poise, props: poise.props.map((prop, i) => (i === k ? { ...prop, ...some } : prop)) }), { label });
  return (
    <section className="panel" aria-label="Carries">
      {props.length === 0 ? <p className="hint">It carries nothing yet. A jar in a hand moves the centre of mass.</p> : props.map((prop, k) => {
        const [from, to] = stepsOfSpan(plan, prop.fromS, prop.toS);
        return (
          <fieldset key={k} className="prop">
            <legend>{prop.name}, on the {jointWords(prop.bone)}, steps {from}–{to}</legend>
            <div className="field-grid">
              <MeasureField label="Weight" quantity="mass" value={prop.massG} min={0} max={100_000} step={1} onCommit={(v) => v !== null && change(k, { massG: v }, `${prop.name} ${figure(v, 1)} g`)} />
              {AXES.map((axis, c) => (
                <MeasureField key={axis} label={`Middle, ${axis}`} quantity="length" value={prop.atMm[c]!} min={-FAR_MM} max={FAR_MM} step={1} onCommit={(v) => v !== null && change(k, { atMm: prop.atMm.map((old, i) => (i === c ? v : old)) as unknown as Prop['atMm'] }, `${prop.name} moved`)} />
              ))}
            </div>
            <button type="button" className="small" onClick={() => editPoise((poise) => ({ ...poise, props: poise.props.filter((_, i) => i !== k) }), { label: `${prop.name} put down` })}>Put down</button>
          </fieldset>
        );
      })}
      <fieldset className="prop">
        <legend>Something new in its hands</legend>
        <div className="field-grid">
          <TextField label="Name" value={draft.name} maxChars={100} onCommit={(name) => setDraft({ ...draft, name })} />
          <Select label="Carried by" value={draft.bone} options={bones.map(({ name }) => ({ value: name, words: jointWords(name) }))} onChoose={(bone) => setDraft({ ...draft, bone })} />
          <MeasureField label="Weight" quantity="mass" value={draft.massG} min={0} max={100_000} step={1} onCommit={(v) => v !== null && setDraft({ ...draft, massG: v })} />
        </div>
        <SpanFields plan={plan} span={span} onChange={setSpan} />
        <button type="button" onClick={add}>Let it carry this</button>
      </fieldset>
      <div className="field-grid">
        <Select label="The performer weighs as" value={table} options={MASS_TABLES.map((value) => ({ value, words: value }))} onChoose={(value) => editPoise((poise) => ({ ...poise, table: value }), { label: `performer as ${value}` })} />
        <NumberField label="Pendulum, times the leg" value={pendulumFactor} unit="×" min={0.5} max={3} step={0.02} decimals={2} widthCh={5} onCommit={(v) => v !== null && editPoise((poise) => ({ ...poise, pendulumFactor: v }), { label: `pendulum ×${v}` })} />
        <MeasureField label="Wanted margin" quantity="length" value={marginMm} min={-50} max={200} step={0.5} onCommit={(v) => v !== null && editPoise((poise) => ({ ...poise, marginMm: v }), { label: `wanted margin ${figure(v, 1)} mm` })} />
      </div>
    </section>
  );
}
