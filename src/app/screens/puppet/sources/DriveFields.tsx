/** What moves the picked joint, and how much of it, how late, from which pose. */
import type { ReactElement } from 'react';
import { jointWords } from '../../../../charts/figures.ts';
import { JOINT_NAMES, type JointName } from '../../../../motion/joints.ts';
import { type Drive, FREE_AXES, turnsFreely } from '../../../../puppet/armature.ts';
import type { CompleteArmature, CompleteDrive } from '../../../../puppet/complete.ts';
import { MeasureField } from '../../../fields/MeasureField.tsx';
import { NumberField } from '../../../fields/NumberField.tsx';
import { Select } from '../../../fields/Select.tsx';
import { pickJoint, puppetView } from '../../../puppet3d/puppetView.ts';
import { currentBook } from '../../../state/bookStore.ts';
import { editPuppet } from '../../../state/puppetEdits.ts';
import { useBook } from '../../../state/use.ts';

const NOTHING = 'nothing';
const AXIS_WORDS = { axis: 'About its axis', forward: 'About forward', up: 'About up', right: 'About right' } as const;

export interface DriveFieldsProps {
  readonly armature: CompleteArmature;
  readonly drive: CompleteDrive;
  /** Joints that share the same source, itself among them. */
  readonly sharers: number;
}

/** Puts a drive in the place of the joint's own in the book. */
function setDrive(drive: CompleteDrive, some: Partial<Drive>, what: string): void {
  const { puppet } = currentBook();
  const next: Drive = { ...drive, ...some };
  editPuppet({ drives: [...(puppet.drives ?? []).filter((d) => d.joint !== drive.joint), next] }, `${what} of the ${jointWords(drive.joint)}`, `drive.${drive.joint}.${what}`);
}

function forget(joint: string): void {
  const left = (currentBook().puppet.drives ?? []).filter((d) => d.joint !== joint);
  editPuppet({ drives: left.length === 0 ? null : left }, `${jointWords(joint)} as the armature says`);
}

export function DriveFields({ armature, drive, sharers }: DriveFieldsProps): ReactElement {
  const own = useBook((b) => b.puppet.drives?.some((d) => d.joint === drive.joint) ?? false);
  const kind = armature.joints.find(({ name }) => name === drive.joint)?.kind ?? 'ball';
  const axes = turnsFreely(kind) ? FREE_AXES : (['axis'] as const);
  const set = (some: Partial<Drive>, what: string): void => setDrive(drive, some, what);
  return (
    <div className="part-editor">
      <Select
        label="Follows the performer’s"
        value={drive.from ?? NOTHING}
        options={[{ value: NOTHING, words: 'nothing' }, ...JOINT_NAMES.map((name) => ({ value: name as string, words: jointWords(name) }))]}
        onChoose={(from) => set({ from: from === NOTHING ? null : (from as JointName) }, 'source')}
      />
      {drive.from === null ? <p className="hint">It stays at rest unless a hand curve moves it.</p> : (
        <div className="field-grid">
          <NumberField label="Gain: 1 as performed" unit="×" value={drive.gain} min={-10} max={10} step={0.1} decimals={3} onCommit={(v) => v !== null && set({ gain: v }, 'gain')} />
          <NumberField label="Later by" unit="steps" value={drive.delaySteps} min={-1000} max={1000} step={1} decimals={2} onCommit={(v) => v !== null && set({ delaySteps: v }, 'delay')} />
          {sharers > 1 ? <NumberField label={`Share of the bend, ${sharers} joints`} value={drive.weight} min={0} max={1000} step={0.5} decimals={2} onCommit={(v) => v !== null && set({ weight: v }, 'share')} /> : null}
        </div>
      )}
      <div className="field-grid" role="group" aria-label="Added to it">
        {axes.map((axis) => (
          <MeasureField key={axis} label={`${AXIS_WORDS[axis]}, added`} quantity="angle" value={drive.offsetDeg[axis]} min={-360} max={360} step={1} onCommit={(v) => v !== null && set({ offsetDeg: { ...drive.offsetDeg, [axis]: v } }, 'offset')} />
        ))}
      </div>
      <div className="buttons">
        <button type="button" onClick={() => { pickJoint(drive.joint); puppetView.setState({ part: 'curves' }); }}>Move it by a hand curve</button>
        <button type="button" disabled={!own} onClick={() => forget(drive.joint)}>As the armature says</button>
      </div>
    </div>
  );
}
