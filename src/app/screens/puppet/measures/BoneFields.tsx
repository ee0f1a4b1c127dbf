/** The bone that the picked joint turns: what was measured, and what holds by default. */
import type { ReactElement } from 'react';
import type { Armature, Bone } from '../../../../puppet/armature.ts';
import type { CompleteBone } from '../../../../puppet/complete.ts';
import { jointWords } from '../../../../charts/figures.ts';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { TextField } from '../../../fields/TextField.tsx';
import { editArmature } from '../../../state/puppetEdits.ts';
import { boneOfJoint, renamed, withBone } from '../edits/parts.ts';
import { TripleField } from './TripleField.tsx';

export interface PartProps {
  readonly document: Armature;
  readonly joint: string;
}

export function BoneFields({ document, joint, complete }: PartProps & { readonly complete: CompleteBone }): ReactElement | null {
  const bone = boneOfJoint(document, joint);
  if (bone === undefined) return null;
  const words = jointWords(bone.name);
  const set = (some: Partial<Bone>, what: string): boolean => editArmature((a) => withBone(a, joint, some), `${what} of the ${words}`, `${joint}.${what}`);
  return (
    <section className="bone-fields" aria-label={`Bone ${words}`}>
      <h3>Bone</h3>
      <div className="field-grid">
        <MeasureField
          label="Length"
          quantity="length"
          value={bone.lengthFrom === 'proportion' ? null : bone.lengthMm}
          byDefault={bone.lengthMm}
          min={0.1}
          max={4000}
          step={1}
          onCommit={(v) => set(v === null ? { lengthFrom: 'proportion' } : { lengthMm: v, lengthFrom: undefined }, 'length')}
        />
        <MeasureField label="Weight" quantity="mass" value={bone.massG ?? null} byDefault={complete.massG} min={0} max={1e6} step={1} onCommit={(v) => set({ massG: v ?? undefined }, 'weight')} />
        <MeasureField label="Half its thickness" quantity="length" value={bone.radiusMm ?? null} byDefault={complete.radiusMm} min={0.01} max={4000} step={1} onCommit={(v) => set({ radiusMm: v ?? undefined }, 'thickness')} />
        <label className="check">
          <input type="checkbox" checked={complete.tieDown} onChange={(event) => set({ tieDown: event.target.checked }, 'tie-down')} />
          <span>Can be tied down{bone.tieDown === undefined ? <em> default</em> : null}</span>
        </label>
      </div>
      <TripleField label="Points at rest" quantity="direction" value={bone.along} byDefault={complete.along} onCommit={(along) => set({ along }, 'direction')} />
      {complete.sole === null ? null : (
        <MeasureField
          label="Sole below its joint"
          quantity="length"
          value={bone.sole?.dropMm ?? null}
          byDefault={complete.sole.dropMm}
          min={0}
          max={4000}
          step={1}
          onCommit={(v) => set({ sole: v === null ? undefined : { outlineMm: complete.sole!.outlineMm, dropMm: v } }, 'sole')}
        />
      )}
      <TextField label="Name of the bone" value={bone.name} maxChars={100} onCommit={(name) => editArmature((a) => renamed(a, joint, joint, name), `name of the ${words}`)} />
      <TextField label="Notes on the bone" value={bone.notes ?? ''} maxChars={2000} mayBeEmpty lines={2} onCommit={(notes) => set({ notes: notes === '' ? undefined : notes }, 'notes')} />
    </section>
  );
}
