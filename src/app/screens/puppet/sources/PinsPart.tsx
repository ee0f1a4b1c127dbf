/** Points of the puppet that stay on the set for a while: a hand on a shelf, on a table top. */
import type { ReactElement } from 'react';
import { jointWords } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import type { CompleteArmature } from '../../../../puppet/complete.ts';
import type { Pin } from '../../../../puppet/puppetSettings.ts';
import { NumberField } from '../../../fields/NumberField.tsx';
import { Select } from '../../../fields/Select.tsx';
import { currentBook } from '../../../state/bookStore.ts';
import { playhead } from '../../../state/playhead.ts';
import { editPuppet } from '../../../state/puppetEdits.ts';
import { useBook } from '../../../state/use.ts';
import { TripleField } from '../measures/TripleField.tsx';
import { StepField, timeOfStep } from './StepField.tsx';

/** Steps of a new pin, and over how many the hand goes there. */
const NEW_STEPS = 12;
const NEW_EASE_STEPS = 4;

function setPins(change: (pins: readonly Pin[]) => readonly Pin[], label: string, key?: string): void {
  editPuppet({ pins: change(currentBook().puppet.pins) }, label, key);
}

export function PinsPart({ plan, armature }: { readonly plan: Plan; readonly armature: CompleteArmature }): ReactElement {
  const pins = useBook((b) => b.puppet.pins);
  const ends = plan.points.filter((point) => point.at === 1);
  const add = (): void => {
    const bone = armature.bones[(ends.find((p) => /hand/i.test(p.name)) ?? ends[0] ?? { bone: 0 }).bone]!.name;
    const { step } = playhead.getState();
    setPins((all) => [...all, { bone, at: 1, fromS: timeOfStep(plan, step), toS: timeOfStep(plan, step + NEW_STEPS), targetMm: null, easeSteps: NEW_EASE_STEPS }], `pin of the ${jointWords(bone)}`);
  };
  return (
    <section className="panel-part" aria-labelledby="pins-title">
      <h3 id="pins-title">Hands on the set</h3>
      <p className="hint">The point stays where it is told, and the limb above it follows. Rigging that bears weight is a rigger’s work.</p>
      {pins.map((pin, i) => {
        const words = jointWords(pin.bone);
        const set = (some: Partial<Pin>, what: string): void => setPins((all) => all.map((p, k) => (k === i ? { ...p, ...some } : p)), `${what} of the pin of the ${words}`, `pin.${i}.${what}`);
        return (
          <fieldset key={i} className="pin">
            <legend>Pin {i + 1}</legend>
            <div className="field-grid">
              <Select label="Point: end of the" value={pin.bone} options={armature.bones.map((b) => ({ value: b.name, words: jointWords(b.name) }))} onChoose={(bone) => set({ bone }, 'point')} />
              <NumberField label="Goes there over" unit="steps" value={pin.easeSteps} min={0} max={1000} step={1} decimals={1} onCommit={(v) => v !== null && set({ easeSteps: v }, 'ease')} />
              <StepField label="From" plan={plan} timeS={pin.fromS} onCommit={(fromS) => set({ fromS, toS: Math.max(fromS, pin.toS) }, 'start')} />
              <StepField label="To" plan={plan} timeS={pin.toS} onCommit={(toS) => set({ toS, fromS: Math.min(toS, pin.fromS) }, 'end')} />
            </div>
            <TripleField label={pin.targetMm === null ? 'Where on the set: where it is when the pin begins' : 'Where on the set, from the middle of the stage'} quantity="length" value={pin.targetMm ?? undefined} byDefault={startOf(plan, armature, pin)} onCommit={(v) => set({ targetMm: v ?? null }, 'place')} />
            <button type="button" className="small" onClick={() => setPins((all) => all.filter((_, k) => k !== i), `removal of the pin of the ${words}`)}>Remove</button>
          </fieldset>
        );
      })}
      <div className="buttons"><button type="button" onClick={add}>Pin a hand from this step on</button></div>
      {pins.length === 0 ? null : <p className="hint">Forward is toward the camera, up from the stage floor, right the puppet’s right when it faces the camera.</p>}
    </section>
  );
}

/** Where the point is when its pin begins, as far as the plan knows; rounded, since it is shown as a place to type from. */
function startOf(plan: Plan, armature: CompleteArmature, pin: Pin): readonly [number, number, number] {
  const bone = armature.bones.findIndex(({ name }) => name === pin.bone);
  const point = plan.points.findIndex((p) => p.bone === bone && p.at === pin.at);
  const step = plan.sourceTimeS.findIndex((t) => t >= pin.fromS - 1e-6);
  const at = (Math.max(0, step) * plan.points.length + point) * 3;
  const part = (c: number): number => Math.round((point < 0 ? Number.NaN : (plan.pointMm[at + c] ?? Number.NaN)) * 10) / 10 || 0;
  return [part(0), part(1), part(2)];
}
