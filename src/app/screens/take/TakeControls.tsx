/** Which part of the take is used and how it was shot, and with which model it is posed. */
import { type ReactElement, useState } from 'react';
import { SETTING_LIMITS } from '../../../plan/settings.ts';
import { MODEL_SIZES, type ModelSize } from '../../../pose/track.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Key } from '../../fields/Key.tsx';
import { NumberField } from '../../fields/NumberField.tsx';
import { poseFootage } from '../../media/posing.ts';
import { findTrack } from '../../media/tracks.ts';
import { editBook, editSettings } from '../../state/bookStore.ts';
import { runCommand } from '../../state/commands.ts';
import { attempt } from '../../state/problems.ts';
import { changesBench } from '../../state/session.ts';
import { useBook, useSession, useSetting } from '../../state/use.ts';

export function TakeControls(): ReactElement {
  const duration = useBook((b) => b.take?.durationS ?? 0);
  const inS = useSetting('inS');
  const outS = useSetting('outS');
  const captureFactor = useSetting('captureFactor');
  const mirror = useSetting('mirror');
  return (
    <section className="take-controls" aria-label="Settings of the take">
      <ModelChoice />
      <div className="field-pair">
        <NumberField label="From" unit="s" value={inS} emptyWord="start" min={0} max={duration} step={0.1} decimals={3} widthCh={7} onCommit={(v) => editSettings({ inS: v })} />
        <button type="button" title="Start the take at the frame that is shown" onClick={() => runCommand('inHere')}>in here <Key of="inHere" /></button>
      </div>
      <div className="field-pair">
        <NumberField label="To" unit="s" value={outS} emptyWord="end" min={0} max={duration} step={0.1} decimals={3} widthCh={7} onCommit={(v) => editSettings({ outS: v })} />
        <button type="button" title="End the take at the frame that is shown" onClick={() => runCommand('outHere')}>out here <Key of="outHere" /></button>
      </div>
      <div className="field-pair">
        <NumberField
          label="Shot faster than stored"
          unit="×"
          value={captureFactor}
          min={SETTING_LIMITS.captureFactor.min}
          max={SETTING_LIMITS.captureFactor.max}
          step={1}
          decimals={3}
          widthCh={7}
          onCommit={(v) => v !== null && editSettings({ captureFactor: v })}
        />
        <span className="hint">240 per second stored as 30: type 8</span>
      </div>
      <label className="check">
        <input type="checkbox" checked={mirror} onChange={(event) => editSettings({ mirror: event.target.checked })} />
        <span>Mirror: the performer’s left becomes the puppet’s right</span>
      </label>
    </section>
  );
}

/** Takes a model over at once where its result is kept; otherwise offers to pose with it. */
function ModelChoice(): ReactElement {
  const model = useBook((b) => b.model);
  const take = useBook((b) => b.take);
  const footage = useSession((s) => s.footage);
  const job = useSession((s) => (changesBench(s.job) ? s.job : null));
  // An offer holds for the take and the model it was made for.
  const [offer, setOffer] = useState<{ readonly size: ModelSize; readonly model: ModelSize; readonly hash: string | undefined } | null>(null);
  const offered = offer !== null && offer.model === model && offer.hash === take?.hash ? offer.size : null;

  const choose = (size: ModelSize): void => {
    setOffer(null);
    if (size === model || take === null) return;
    attempt(async () => {
      const track = await findTrack(take, size);
      if (track !== null) editBook((book) => ({ ...book, model: size }));
      else setOffer({ size, model, hash: take.hash });
    });
  };
  return (
    <div>
      <Choice
        label="Pose model"
        value={job?.kind === 'posing' ? job.model : (offered ?? model)}
        disabled={job !== null}
        options={MODEL_SIZES.map((size) => ({ value: size, words: size }))}
        onChoose={choose}
      />
      {offered === null || job !== null ? null : (
        <div className="offer">
          <p className="hint">
            {footage === null ? `Choose the footage again to pose it with ${offered}.` : MODEL_WORDS[offered]}
          </p>
          {footage === null ? null : (
            <button type="button" className="lamp" onClick={() => attempt(() => poseFootage(offered))}>Pose again with {offered}</button>
          )}
          <button type="button" onClick={() => setOffer(null)}>Stay with {model}</button>
        </div>
      )}
    </div>
  );
}

/** Relative speeds as measured on two cores without a GPU; see the project's benchmark. */
const MODEL_WORDS: Readonly<Record<ModelSize, string>> = {
  lite: 'The smallest model: quickest, and the least sure of hidden limbs.',
  full: 'The usual model.',
  heavy: 'The largest model: takes about three times as long as full.',
};
