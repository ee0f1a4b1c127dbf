/** The chosen joint in the frame on show: where it was put, its angle, and the way to take either back. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { writeNumber } from '../../fields/numberText.ts';
import { ANGLE_MEASURES } from '../../../motion/corrections/angleMeasures.ts';
import { angleJoint, CORRECTABLE, type Correctable, correctableWords, isPlaceable } from '../../corrections/correctable.ts';
import { currentAngleDeg } from '../../corrections/currentAngle.ts';
import { SAME_FRAME_S } from '../../corrections/edits.ts';
import { Key } from '../../fields/Key.tsx';
import { NumberField } from '../../fields/NumberField.tsx';
import { runCommand } from '../../state/commands.ts';
import { choose, correcting, placeOf, typeAngleHere } from '../../state/correcting.ts';
import { ANGLE_FIELD } from '../../state/correctingCommands.ts';
import { useBook, useSession } from '../../state/use.ts';
import { useShownFrame } from './useShownFrame.ts';

const PLACE_WORDS = { hand: 'put here by hand', fit: 'as it was fitted', measured: 'as it was measured' } as const;

export function JointPart(): ReactElement {
  const chosen = useStore(correcting, (s) => s.chosen);
  return (
    <section className="part" aria-label="The chosen joint">
      <div className="part-row">
        <label className="field">
          <span className="field-label">Joint <Key of="nextJoint" /></span>
          <select value={chosen ?? ''} onChange={(event) => choose(event.target.value === '' ? null : (event.target.value as Correctable))}>
            <option value="">none; click one in the picture</option>
            {CORRECTABLE.map((name) => <option key={name} value={name}>{correctableWords(name)}</option>)}
          </select>
        </label>
        {chosen === null ? null : <AngleField chosen={chosen} />}
      </div>
      {chosen === null ? null : <PlaceLine chosen={chosen} />}
    </section>
  );
}

function AngleField({ chosen }: { readonly chosen: Correctable }): ReactElement | null {
  const joint = angleJoint(chosen);
  const angles = useBook((b) => b.corrections.angles);
  const fit = useSession((s) => s.fit);
  const here = useShownFrame();
  if (joint === null) return null;
  const { words, minDeg, maxDeg } = ANGLE_MEASURES[joint];
  const typed = here === null ? undefined : angles.find((a) => a.joint === joint && Math.abs(a.timeS - here.timeS) < SAME_FRAME_S);
  const now = fit === null || here === null ? null : currentAngleDeg(fit.body, here.frame, joint);
  return (
    <div id={ANGLE_FIELD} className="angle-field">
      <NumberField
        label={`Angle in this frame: ${words}`}
        unit="°"
        value={typed?.angleDeg ?? null}
        emptyWord={now === null ? '–' : `${writeNumber(now, 1)}`}
        min={minDeg}
        max={maxDeg}
        step={1}
        decimals={1}
        disabled={here === null}
        onCommit={(deg) => typeAngleHere(joint, deg)}
      />
    </div>
  );
}

function PlaceLine({ chosen }: { readonly chosen: Correctable }): ReactElement {
  const here = useShownFrame();
  const corrections = useBook((b) => b.corrections);
  // A new fit moves the joints.
  useSession((s) => s.fit);
  const place = here === null || !isPlaceable(chosen) ? null : placeOf(chosen, here.frame);
  const joint = angleJoint(chosen);
  const typed = here !== null && joint !== null && corrections.angles.some((a) => a.joint === joint && Math.abs(a.timeS - here.timeS) < SAME_FRAME_S);
  return (
    <div className="part-row">
      <p className="hint">
        {isPlaceable(chosen)
          ? place === null ? 'Not found in this frame.' : `In this frame ${PLACE_WORDS[place.from]}. Drag it, or move it with the arrow keys, with Shift ten times as far; Esc lets go.`
          : 'It has no joint in the picture; type its angle.'}
      </p>
      <button type="button" disabled={place?.from !== 'hand' && !typed} onClick={() => runCommand('takeBackHere')}>Take back <Key of="takeBackHere" /></button>
    </div>
  );
}
