/** Beside the picture: the take and its settings, what was put right by hand, or what is unsure. */
import { type ReactElement, useMemo } from 'react';
import { useStore } from 'zustand';
import { countCorrections } from '../../../motion/corrections/corrections.ts';
import { Choice } from '../../fields/Choice.tsx';
import { correcting, showSide } from '../../state/correcting.ts';
import { useBook, useSession } from '../../state/use.ts';
import { CameraPart } from './CameraPart.tsx';
import { CorrectionList } from './CorrectionList.tsx';
import { JointPart } from './JointPart.tsx';
import { SlatePart } from './SlatePart.tsx';
import { SpanPart } from './SpanPart.tsx';
import { TakeControls } from './TakeControls.tsx';
import { TakeFacts } from './TakeFacts.tsx';
import { seenSpans, UnsurePart } from './UnsurePart.tsx';

export function TakeSide(): ReactElement {
  const side = useStore(correcting, (s) => s.side);
  const corrections = useBook((b) => b.corrections);
  const mirror = useBook((b) => b.settings.mirror);
  const plan = useSession((s) => s.plan);
  const posed = useSession((s) => s.track !== null && s.job?.kind !== 'posing');
  const made = Object.values(countCorrections(corrections)).reduce((sum, n) => sum + n, 0);
  const doubts = useMemo(() => (plan === null ? 0 : seenSpans(plan).length), [plan]);
  const shown = posed ? side : 'take';
  return (
    <div className="take-side">
      <Choice
        label="Beside the picture"
        value={shown}
        disabled={!posed}
        options={[
          { value: 'take' as const, words: 'The take' },
          { value: 'correct' as const, words: made === 0 ? 'Put right' : `Put right · ${made}` },
          { value: 'unsure' as const, words: doubts === 0 ? 'Unsure' : `Unsure · ${doubts}` },
        ]}
        onChoose={showSide}
      />
      {shown === 'take' ? (
        <>
          <TakeControls />
          <TakeFacts />
        </>
      ) : shown === 'unsure' ? <UnsurePart /> : (
        <>
          {mirror ? <p className="hint">The picture is mirrored; left and right here are the performer’s own.</p> : null}
          <JointPart />
          <SpanPart />
          <CorrectionList />
          <CameraPart />
          <SlatePart />
        </>
      )}
    </div>
  );
}
