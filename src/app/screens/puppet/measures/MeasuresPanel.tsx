/** The armature as a document: where it comes from, every bone and joint of it, and what makes both sides alike. */
import { type ReactElement, useState } from 'react';
import type { Armature } from '../../../../puppet/armature.ts';
import type { CompleteArmature } from '../../../../puppet/complete.ts';
import { EXAMPLES } from '../../../../puppet/examples/all.ts';
import { Choice } from '../../../fields/Choice.tsx';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { writeMeasure } from '../../../fields/measureText.ts';
import { Select } from '../../../fields/Select.tsx';
import { TextField } from '../../../fields/TextField.tsx';
import { pickJoint } from '../../../puppet3d/puppetView.ts';
import { askForArmature, saveArmature } from '../../../state/armatureFiles.ts';
import { attempt } from '../../../state/problems.ts';
import { editArmature, openArmature } from '../../../state/puppetEdits.ts';
import { say, session } from '../../../state/session.ts';
import { useBook, useSession } from '../../../state/use.ts';
import { mirrored, type Side, sideOf } from '../edits/mirror.ts';
import { withoutPart, withPart } from '../edits/parts.ts';
import { JointList } from '../JointList.tsx';
import { BoneFields } from './BoneFields.tsx';
import { JointFields } from './JointFields.tsx';
import { RulerForm } from './RulerForm.tsx';

export function MeasuresPanel({ document, armature }: { readonly document: Armature; readonly armature: CompleteArmature }): ReactElement {
  const [measuring, setMeasuring] = useState(false);
  const units = useSession((s) => s.units);
  const defaults = document.bones.filter((b) => b.lengthFrom === 'proportion').length;
  return (
    <section className="panel" aria-labelledby="measures-title">
      <h2 id="measures-title" className="unseen">Measures of the puppet</h2>
      <Origin document={document} onRuler={() => setMeasuring(true)} measuring={measuring} />
      {measuring ? <RulerForm onDone={() => setMeasuring(false)} /> : null}
      <div className="field-grid">
        <TextField label="Name of the puppet" value={document.name} maxChars={100} onCommit={(name) => editArmature((a) => ({ ...a, name }), `name of the puppet`)} />
        <MeasureField label="Weight of the whole" quantity="mass" value={document.totalMassG ?? null} byDefault={armature.totalMassG} min={0.1} max={1e6} step={5} onCommit={(v) => editArmature((a) => ({ ...a, totalMassG: v ?? undefined }), 'weight of the puppet', 'totalMassG')} />
      </div>
      <JointList
        armature={armature}
        label="Bones and joints"
        about={(p) => (
          <>
            {writeMeasure(armature.bones[p]!.lengthMm, 'length', units)}
            {document.bones.find((b) => b.name === armature.bones[p]!.name)?.lengthFrom === 'proportion' ? <em> default</em> : null}
          </>
        )}
        below={(p) => <PartEditor document={document} armature={armature} index={p} />}
      />
      {defaults > 0 ? <p className="hint">{defaults} of {document.bones.length} lengths are defaults: worked out by proportion, not measured.</p> : null}
    </section>
  );
}

function Origin({ document, measuring, onRuler }: { readonly document: Armature; readonly measuring: boolean; readonly onRuler: () => void }): ReactElement {
  const units = useSession((s) => s.units);
  const standard = useBook((b) => b.armature === null);
  const mirror = (from: Side): void => {
    if (editArmature((a) => mirrored(a, from), from === 'left' ? 'right side made like the left' : 'left side made like the right')) say(`Both sides are like the ${from} now.`);
  };
  return (
    <div className="origin">
      <div className="buttons">
        <button type="button" className={standard ? 'lamp' : ''} disabled={measuring} onClick={onRuler}>Measure with a ruler</button>
        <Select
          label="Open an example"
          hideLabel
          value=""
          options={[{ value: '', words: 'Open an example …' }, ...EXAMPLES.map((e) => ({ value: e.id as string, words: `${e.armature.name}: ${e.what}` }))]}
          onChoose={(id) => {
            const example = EXAMPLES.find((e) => e.id === id);
            if (example !== undefined) openArmature(example.armature, `puppet ${example.armature.name}`);
          }}
        />
        <button type="button" onClick={() => attempt(askForArmature)}>Open a file</button>
        <button type="button" onClick={() => saveArmature(document)}>Save as a file</button>
        <button type="button" disabled={standard} onClick={() => openArmature(null, 'puppet back to the standard figure')}>Standard figure</button>
      </div>
      <div className="choice-row">
        <Choice label="Lengths and weights in" value={units} options={[{ value: 'mm', words: 'mm, g' }, { value: 'in', words: 'in, oz' }]} onChoose={(next) => session.setState({ units: next })} />
        <div className="field">
          <span className="field-label">Both sides alike</span>
          <span className="choice-row">
            <button type="button" title="The right side becomes like the left" onClick={() => mirror('left')}>left → right</button>
            <button type="button" title="The left side becomes like the right" onClick={() => mirror('right')}>right → left</button>
          </span>
        </div>
      </div>
    </div>
  );
}

function PartEditor({ document, armature, index }: { readonly document: Armature; readonly armature: CompleteArmature; readonly index: number }): ReactElement {
  const joint = armature.joints[index]!;
  const add = (): void => {
    const side = sideOf(joint.name);
    const { name } = withPart(document, joint.name, side === null ? 'extra' : `${side}Extra`);
    if (editArmature((a) => withPart(a, joint.name, name).armature, `new bone ${name}`)) pickJoint(name);
  };
  const remove = (): void => {
    if (editArmature((a) => withoutPart(a, joint.name), `removal of the ${joint.name}`)) pickJoint(null);
  };
  return (
    <div className="part-editor">
      <BoneFields document={document} joint={joint.name} complete={armature.bones[index]!} />
      <JointFields document={document} joint={joint.name} complete={joint} />
      <div className="buttons">
        <button type="button" onClick={add}>Add a bone at its end</button>
        <button type="button" disabled={joint.parent === null} title={joint.parent === null ? 'This joint carries the whole puppet' : 'With all that hangs on it; undo brings it back'} onClick={remove}>Remove</button>
      </div>
    </div>
  );
}
