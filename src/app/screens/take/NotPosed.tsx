/** Footage without a track: posing was cancelled, or has found nobody. */
import type { ReactElement } from 'react';
import { poseFootage } from '../../media/posing.ts';
import { attempt } from '../../state/problems.ts';
import { useBook } from '../../state/use.ts';

export function NotPosed(): ReactElement {
  const model = useBook((b) => b.model);
  return (
    <div className="notice">
      <p><strong>This clip has not been posed.</strong> Posing finds the performer in every frame; the steps are made from that.</p>
      <button type="button" className="lamp" onClick={() => attempt(() => poseFootage(model))}>Pose with {model}</button>
    </div>
  );
}
