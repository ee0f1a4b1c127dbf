/** What is known of the take, as it is: sizes, rate in words, how many frames were posed, and every warning. */
import type { ReactElement, ReactNode } from 'react';
import { figure } from '../../../charts/figures.ts';
import { describeRate } from '../../../footage/rateVerdict.ts';
import { foundCount } from '../../../pose/track.ts';
import { Key } from '../../fields/Key.tsx';
import { runCommand } from '../../state/commands.ts';
import { useBook, useSession } from '../../state/use.ts';
import { cameraWords } from './cameraWords.ts';
import { gapsOf } from './gapsOf.ts';
import { spanWords } from './spanWords.ts';
import { sizeWords } from './timeWords.ts';

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }): ReactElement {
  return <div><dt>{name}</dt><dd>{children}</dd></div>;
}

export function TakeFacts(): ReactElement | null {
  const take = useBook((b) => b.take);
  const facts = useSession((s) => s.footage?.facts);
  const track = useSession((s) => s.track);
  const plan = useSession((s) => s.plan);
  const fit = useSession((s) => s.fit);
  const posing = useSession((s) => s.job?.kind === 'posing');
  const busy = useSession((s) => s.job !== null);
  if (take === null) return null;
  const found = track === null ? 0 : foundCount(track);
  const openGaps = plan === null || track === null || posing ? [] : gapsOf(track, plan).filter(({ open }) => open);
  const warnings = [...openGaps.map((gap) => `Nobody was found ${spanWords(gap)}: too long to bridge, the steps there have no angles.`), ...(facts?.warnings ?? []), ...(posing ? [] : (plan?.warnings ?? []))];
  const hidden = plan?.joints.filter((j) => !j.observable).length ?? 0;
  return (
    <section className="facts">
      <h2>The take</h2>
      {plan === null || plan.fitted || busy ? null : (
        <div className="notice">
          <p>The fit lays one body with bones of constant length over the whole take; the angles come out truer.</p>
          <button type="button" onClick={() => runCommand('fitBody')}>Fit the body <Key of="fitBody" /></button>
        </div>
      )}
      <dl>
        <Fact name="Picture">{take.widthPx} × {take.heightPx} px{facts !== undefined && facts.rotationDeg !== 0 ? `, turned ${facts.rotationDeg}°` : ''}</Fact>
        <Fact name="Length">{figure(take.durationS, 2)} s</Fact>
        <Fact name="Frames">{take.frames}</Fact>
        <Fact name="Frames per second">{describeRate(take.rate)}</Fact>
        <Fact name="File">{sizeWords(take.sizeBytes)}{facts === undefined ? '' : `, ${facts.codec}`}</Fact>
        {track === null ? null : (
          <>
            <Fact name="Pose model">{track.model}</Fact>
            <Fact name="Frames posed">{posing ? `${found} so far` : found}</Fact>
            {posing ? null : <Fact name="Nobody found in">{track.timesS.length - found === 0 ? 'no frame' : `${track.timesS.length - found} frames`}</Fact>}
          </>
        )}
        {plan === null || posing ? null : (
          <>
            <Fact name="Angles from">{plan.fitted ? 'the fitted body' : 'landmarks alone'}</Fact>
            {fit === null || !plan.fitted ? null : <Fact name="Camera">{cameraWords(fit.body.camera)}</Fact>}
            <Fact name="Smoothing cut-off used">{plan.usedCutoffHz === null ? 'none' : `${figure(plan.usedCutoffHz, 1)} Hz`}</Fact>
            <Fact name="Joints out of reach">{hidden === 0 ? 'none' : `${hidden} of ${plan.joints.length}`}</Fact>
          </>
        )}
      </dl>
      {warnings.length === 0 ? null : (
        <ul className="warnings" aria-label="Warnings">
          {warnings.map((warning) => <li key={warning}>{warning}</li>)}
        </ul>
      )}
    </section>
  );
}
