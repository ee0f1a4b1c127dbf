/** Two minutes with a ruler: two lengths make a whole puppet, any more make it truer. */
import { type ReactElement, useState } from 'react';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { TextField } from '../../../fields/TextField.tsx';
import { openArmature } from '../../../state/puppetEdits.ts';
import { say } from '../../../state/session.ts';
import { rulerArmature, rulerDefaults, type RulerMeasures } from '../edits/ruler.ts';

type Draft = { readonly [K in keyof RulerMeasures]: number | null };

const EMPTY: Draft = { legMm: null, armMm: null, trunkMm: null, headMm: null, shouldersMm: null, hipsMm: null, footMm: null, weightG: null };

const OPTIONAL = [
  ['trunkMm', 'Trunk: hips up to the shoulders'],
  ['headMm', 'Head and neck: shoulders to the crown'],
  ['shouldersMm', 'Between the shoulder joints'],
  ['hipsMm', 'Between the hip joints'],
  ['footMm', 'Foot: ankle joint to the toes'],
] as const;

const LEG_MM = { min: 5, max: 4000 };

export function RulerForm({ onDone }: { readonly onDone: () => void }): ReactElement {
  const [draft, setDraft] = useState<Draft>(EMPTY);
  const [name, setName] = useState('My puppet');
  const set = (some: Partial<Draft>): void => setDraft((d) => ({ ...d, ...some }));
  const by = draft.legMm === null ? null : rulerDefaults(draft.legMm);
  const ready = draft.legMm !== null && draft.armMm !== null;
  const make = (): void => {
    const { legMm, armMm } = draft;
    if (legMm === null || armMm === null) return;
    openArmature(rulerArmature(name, { ...draft, legMm, armMm }), `puppet “${name}” measured with a ruler`);
    say(`The puppet ${name} is made from its measures.`);
    onDone();
  };
  return (
    <section className="ruler" aria-labelledby="ruler-title">
      <h3 id="ruler-title">Two minutes with a ruler</h3>
      <p className="hint">Leg and arm are enough. What you leave empty follows the proportions of a person at the scale of the leg, and stays marked as a default.</p>
      <TextField label="Name" value={name} maxChars={100} onCommit={setName} />
      <div className="field-grid">
        <MeasureField label="Leg: hip joint to the floor" quantity="length" value={draft.legMm} byDefault={null} min={LEG_MM.min} max={LEG_MM.max} step={1} onCommit={(legMm) => set({ legMm })} />
        <MeasureField label="Arm: shoulder joint to the fingertips" quantity="length" value={draft.armMm} byDefault={null} min={LEG_MM.min} max={LEG_MM.max} step={1} onCommit={(armMm) => set({ armMm })} />
        {OPTIONAL.map(([key, label]) => (
          <MeasureField key={key} label={label} quantity="length" value={draft[key]} byDefault={by?.[key] ?? null} min={1} max={4000} step={1} onCommit={(v) => set({ [key]: v })} />
        ))}
        <MeasureField label="Weight of the whole puppet" quantity="mass" value={draft.weightG} byDefault={null} min={0.1} max={1e6} step={5} onCommit={(weightG) => set({ weightG })} />
      </div>
      <div className="buttons">
        <button type="button" className="lamp" disabled={!ready} onClick={make}>Make the puppet</button>
        <button type="button" onClick={onDone}>Cancel</button>
      </div>
    </section>
  );
}
