/** How the camera stood: estimated with the fit, or given by whoever knows. */
import type { ReactElement } from 'react';
import { CORRECTION_LIMITS, type CameraWord } from '../../../motion/corrections/corrections.ts';
import { setCamera } from '../../corrections/edits.ts';
import { NumberField } from '../../fields/NumberField.tsx';
import { writeNumber } from '../../fields/numberText.ts';
import { editCorrections } from '../../state/correcting.ts';
import { useBook, useSession } from '../../state/use.ts';

const DEG = 180 / Math.PI;

const FIELDS: readonly { readonly key: keyof CameraWord; readonly label: string; readonly guess: string }[] = [
  { key: 'pitchDeg', label: 'Looks down (−: up)', guess: 'estimated' },
  { key: 'rollDeg', label: 'Turned clockwise', guess: 'estimated' },
  { key: 'verticalFovDeg', label: 'Field of view, height', guess: 'guessed' },
];

/** "Or more": the fit knows nothing of what the model gets wrong in the same way throughout (motion/fit/cameraSigma.ts). */
function sureness(sigmaRad: number | undefined): string {
  return sigmaRad === undefined || !Number.isFinite(sigmaRad) ? '' : `, ± ${writeNumber(sigmaRad * DEG, 1)}° or more`;
}

export function CameraPart(): ReactElement {
  const given = useBook((b) => b.corrections.camera);
  const camera = useSession((s) => s.fit?.body.camera);
  const heightPx = useSession((s) => s.track?.heightPx ?? 1);
  const now: Readonly<Record<keyof CameraWord, number | undefined>> = {
    pitchDeg: camera === undefined ? undefined : camera.pitchRad * DEG,
    rollDeg: camera === undefined ? undefined : camera.rollRad * DEG,
    verticalFovDeg: camera === undefined ? undefined : 2 * Math.atan2(heightPx / 2, camera.focalPx) * DEG,
  };
  const sigmaRad: Readonly<Partial<Record<keyof CameraWord, number>>> = { pitchDeg: camera?.pitchSigmaRad, rollDeg: camera?.rollSigmaRad };
  return (
    <section className="part" aria-label="The camera">
      <h2>Camera</h2>
      <div className="part-fields">
        {FIELDS.map(({ key, label, guess }) => (
          <div key={key}>
            <NumberField
              label={label}
              unit="°"
              value={given[key]}
              emptyWord={now[key] === undefined ? '–' : writeNumber(now[key], 1)}
              min={CORRECTION_LIMITS[key].min}
              max={CORRECTION_LIMITS[key].max}
              step={1}
              decimals={2}
              widthCh={6}
              onCommit={(deg) => editCorrections((c) => setCamera(c, { [key]: deg }), { key: `camera ${key}` })}
            />
            {given[key] === null
              ? <span className="hint">{guess}{sureness(sigmaRad[key])}; type to give it</span>
              : <button type="button" className="small" aria-label={`${label}: ${guess} again`} onClick={() => editCorrections((c) => setCamera(c, { [key]: null }))}>given · {guess} again</button>}
          </div>
        ))}
      </div>
    </section>
  );
}
