/** The picked joint: where it is, what kind, how far it turns and how finely a hand can set it. */
import type { ReactElement } from 'react';
import { type Joint, PUPPET_KINDS, type Screw, turnsFreely } from '../../../../puppet/armature.ts';
import type { CompleteJoint } from '../../../../puppet/complete.ts';
import { DEFAULT_SMALLEST_TURNS } from '../../../../puppet/kinds.ts';
import { jointWords } from '../../../../charts/figures.ts';
import { Choice } from '../../../fields/Choice.tsx';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { NumberField } from '../../../fields/NumberField.tsx';
import { TextField } from '../../../fields/TextField.tsx';
import { pickJoint } from '../../../puppet3d/puppetView.ts';
import { editArmature } from '../../../state/puppetEdits.ts';
import { boneOfJoint, renamed, withJoint } from '../edits/parts.ts';
import { KindSign } from '../KindSign.tsx';
import type { PartProps } from './BoneFields.tsx';
import { LimitFields } from './LimitFields.tsx';
import { TripleField } from './TripleField.tsx';

/** A thread to begin with when a joint becomes a screw: an M3 bolt on a lever of a centimetre, square in the middle of its limits. */
function firstScrew(limits: CompleteJoint['limitsDeg']['axis']): Screw {
  return { pitchMm: 0.5, leverMm: 10, ...(limits === null ? {} : { squareAtDeg: Math.round(limits[0] + limits[1]) / 2 }) };
}

export function JointFields({ document, joint: name, complete }: PartProps & { readonly complete: CompleteJoint }): ReactElement | null {
  const joint = document.joints.find((j) => j.name === name);
  if (joint === undefined) return null;
  const words = jointWords(name);
  const set = (some: Partial<Joint>, what: string): boolean => editArmature((a) => withJoint(a, name, some), `${what} of the ${words}`, `${name}.${what}`);
  const setKind = (kind: Joint['kind']): boolean => set({ kind, screw: kind === 'screw' ? (joint.screw ?? firstScrew(complete.limitsDeg.axis)) : undefined }, 'kind');
  const free = turnsFreely(complete.kind);
  const rename = (next: string): boolean => {
    const bone = boneOfJoint(document, name)?.name ?? name;
    const made = editArmature((a) => renamed(a, name, next, bone), `name of the ${words}`);
    if (made) pickJoint(next);
    return made;
  };
  return (
    <section className="bone-fields" aria-label={`Joint ${words}`}>
      <h3>Joint</h3>
      <Choice
        label={`Kind${joint.kind === undefined ? ', default' : ''}`}
        value={complete.kind}
        options={PUPPET_KINDS.map((kind) => ({ value: kind, words: <><KindSign kind={kind} /> {kind}</> }))}
        onChoose={setKind}
      />
      {free ? null : <TripleField label="Axis at rest" quantity="direction" value={joint.axis} byDefault={complete.axis} onCommit={(axis) => set({ axis }, 'axis')} />}
      {joint.screw === undefined ? null : <ScrewFields screw={joint.screw} onCommit={(screw) => set({ screw }, 'thread')} />}
      <LimitFields joint={joint} complete={complete} onCommit={(limitsDeg) => set({ limitsDeg }, 'limits')} />
      <div className="field-grid">
        {joint.screw === undefined ? <MeasureField label="Smallest move" quantity="angle" value={joint.smallestDeg ?? null} byDefault={complete.smallestDeg} min={0.01} max={45} step={0.25} onCommit={(v) => set({ smallestDeg: v ?? undefined }, 'smallest move')} /> : null}
        <MeasureField label="Slack" quantity="angle" value={joint.slackDeg ?? null} byDefault={complete.slackDeg} min={0} max={45} step={0.1} onCommit={(v) => set({ slackDeg: v ?? undefined }, 'slack')} />
      </div>
      {joint.parent === null ? null : (
        <>
          <NumberField label={`Along the ${jointWords(joint.parent)}: 0 its start, 1 its end`} unit={joint.at === undefined ? 'default' : undefined} value={joint.at ?? null} emptyWord={String(complete.at)} min={0} max={1} step={0.05} decimals={3} onCommit={(v) => set({ at: v ?? undefined }, 'place')} />
          <TripleField label="Beside that place" quantity="length" value={joint.offsetMm} byDefault={complete.offsetMm} onCommit={(offsetMm) => set({ offsetMm }, 'place')} />
        </>
      )}
      <TextField label="Name of the joint" value={joint.name} maxChars={100} onCommit={rename} />
      <TextField label="Notes on the joint" value={joint.notes ?? ''} maxChars={2000} mayBeEmpty lines={2} onCommit={(notes) => set({ notes: notes === '' ? undefined : notes }, 'notes')} />
    </section>
  );
}

function ScrewFields({ screw, onCommit }: { readonly screw: Screw; readonly onCommit: (screw: Screw) => void }): ReactElement {
  return (
    <div className="field-grid" role="group" aria-label="Thread">
      <MeasureField label="Pitch, one turn" quantity="length" value={screw.pitchMm} min={0.05} max={50} step={0.05} onCommit={(v) => v !== null && onCommit({ ...screw, pitchMm: v })} />
      <MeasureField label="Lever" quantity="length" value={screw.leverMm} min={0.1} max={4000} step={0.5} onCommit={(v) => v !== null && onCommit({ ...screw, leverMm: v })} />
      <NumberField label="Starts of the thread" unit={screw.starts === undefined ? 'default' : undefined} value={screw.starts ?? null} emptyWord="1" min={1} max={20} step={1} decimals={0} onCommit={(v) => onCommit({ ...screw, starts: v === null ? undefined : Math.round(v) })} />
      <MeasureField label="Lever square at" quantity="angle" value={screw.squareAtDeg ?? null} byDefault={0} min={-180} max={180} step={5} onCommit={(v) => onCommit({ ...screw, squareAtDeg: v ?? undefined })} />
      <NumberField label="Smallest turn of the key" unit={screw.smallestTurns === undefined ? 'turn default' : 'turn'} value={screw.smallestTurns ?? null} emptyWord={String(DEFAULT_SMALLEST_TURNS)} min={0.001} max={10} step={0.125} decimals={4} onCommit={(v) => onCommit({ ...screw, smallestTurns: v ?? undefined })} />
    </div>
  );
}
