/** What moves each joint of the puppet, how its feet and hands meet the set, and how tall it is to look. */
import type { ReactElement } from 'react';
import { figure, jointWords } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import type { CompleteArmature, CompleteDrive } from '../../../../puppet/complete.ts';
import { drivesOf } from '../../../../puppet/drives.ts';
import { editPuppet } from '../../../state/puppetEdits.ts';
import { useBook } from '../../../state/use.ts';
import { JointList } from '../JointList.tsx';
import { FlagList } from '../moves/FlagList.tsx';
import { DatumPart } from './DatumPart.tsx';
import { DriveFields } from './DriveFields.tsx';
import { PinsPart } from './PinsPart.tsx';
import { TimeScaleOffer } from './TimeScaleOffer.tsx';
import { ViewPart } from './ViewPart.tsx';

/** A drive in a few words: `left elbow × 1.2, 2 steps later`. */
function driveWords(drive: CompleteDrive, sharers: number, hasCurve: boolean): string {
  const said = drive.from === null ? (hasCurve ? 'hand curve' : 'nothing') : [
    jointWords(drive.from),
    ...(drive.gain === 1 ? [] : [`× ${figure(drive.gain, 2)}`]),
    ...(sharers > 1 ? ['shared'] : []),
    ...(drive.delaySteps === 0 ? [] : [`${figure(Math.abs(drive.delaySteps), 1)} ${drive.delaySteps > 0 ? 'later' : 'earlier'}`]),
    ...(hasCurve ? ['+ hand curve'] : []),
  ].join(', ');
  return said;
}

export function SourcesPanel({ plan, armature }: { readonly plan: Plan; readonly armature: CompleteArmature }): ReactElement {
  const settings = useBook((b) => b.puppet);
  const drives = drivesOf(armature, settings);
  const sharers = (from: CompleteDrive['from']): number => (from === null ? 0 : drives.filter((d) => d.from === from).length);
  return (
    <section className="panel" aria-labelledby="sources-title">
      <h2 id="sources-title" className="unseen">Sources of the moves</h2>
      <JointList
        armature={armature}
        label="Joints and what moves each"
        about={(p) => driveWords(drives[p]!, sharers(drives[p]!.from), settings.curves.some((c) => c.joint === drives[p]!.joint && c.keys.length > 0))}
        below={(p) => <DriveFields armature={armature} drive={drives[p]!} sharers={sharers(drives[p]!.from)} />}
      />
      <label className="check">
        <input type="checkbox" checked={settings.plantFeet} onChange={(event) => editPuppet({ plantFeet: event.target.checked }, event.target.checked ? 'standing feet planted' : 'standing feet as performed')} />
        <span>Standing feet stay where they stand; the legs are worked out anew for this puppet’s lengths</span>
      </label>
      <TimeScaleOffer plan={plan} />
      <PinsPart plan={plan} armature={armature} />
      <DatumPart plan={plan} />
      <ViewPart />
      <FlagList plan={plan} />
    </section>
  );
}
