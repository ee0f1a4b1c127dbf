/** Above the picture: which puppet it is, and what stands beside it. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import type { CompleteArmature } from '../../../puppet/complete.ts';
import { writeMeasure } from '../../fields/measureText.ts';
import { PUPPET_PARTS, type PuppetPart, puppetView } from '../../puppet3d/puppetView.ts';
import { useSession } from '../../state/use.ts';

const PART_WORDS: Readonly<Record<PuppetPart, readonly [string, string]>> = {
  moves: ['Moves', 'what to move at each step'],
  measures: ['Measures', 'the puppet’s bones and joints'],
  sources: ['Sources', 'what moves each joint'],
  curves: ['Hand curves', 'what is moved by hand alone: jaw, tail, ears'],
};

export function PuppetHead({ armature }: { readonly armature: CompleteArmature }): ReactElement {
  const part = useStore(puppetView, (s) => s.part);
  const units = useSession((s) => s.units);
  return (
    <div className="puppet-head">
      <div className="puppet-name">
        <h1>{armature.name}</h1>
        <p>{writeMeasure(Math.round(armature.heightMm), 'length', units)} tall, {writeMeasure(Math.round(armature.totalMassG), 'mass', units)}, {armature.joints.length} joints</p>
      </div>
      <div className="tabs puppet-parts" role="group" aria-label="Beside the picture">
        {PUPPET_PARTS.map((name) => (
          <button key={name} type="button" aria-pressed={name === part} title={PART_WORDS[name][1]} onClick={() => puppetView.setState({ part: name })}>{PART_WORDS[name][0]}</button>
        ))}
      </div>
    </div>
  );
}
