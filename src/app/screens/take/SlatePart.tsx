/** Known poses at the start of a take: found or not, refused, or said where they are. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { setSlate } from '../../corrections/edits.ts';
import { Choice } from '../../fields/Choice.tsx';
import { correcting, editCorrections, saidSpan } from '../../state/correcting.ts';
import { useBook, useSession } from '../../state/use.ts';
import { SlatePicture } from './SlatePicture.tsx';
import { spanWords } from './spanWords.ts';
import { useShownFrame } from './useShownFrame.ts';

export function SlatePart(): ReactElement {
  const slate = useBook((b) => b.corrections.slate);
  const fit = useSession((s) => s.fit);
  const here = useShownFrame();
  useStore(correcting, (s) => `${s.fromS} ${s.toS}`);
  const span = here === null ? null : saidSpan();
  const found = fit?.body.slate ?? null;
  const straight = found === null ? '' : `arms and legs straight ${spanWords({ fromS: found.straightFromS, toS: found.straightToS })}`;
  const square = found === null || found.squareFromS === null || found.squareToS === null ? '' : `, elbows square ${spanWords({ fromS: found.squareFromS, toS: found.squareToS })}`;
  return (
    <section className="part" aria-label="Slate pose">
      <h2>Slate pose</h2>
      <div className="part-slate">
        <SlatePicture />
        <p className="hint">
          {fit === null ? 'Looked for when the body is fitted.' : slate.kind === 'none' ? 'Not looked for: you said there is none.' : found === null ? 'None found.' : `${found.given ? 'Given' : 'Found'}: ${straight}${square}.`}
          {' '}A second of each at the start of a take tells the fit how long the limbs are and where straight is.
        </p>
      </div>
      <Choice
        label="At the start of this take"
        value={slate.kind === 'given' ? null : slate.kind}
        options={[{ value: 'find' as const, words: 'look for it' }, { value: 'none' as const, words: 'there is none' }]}
        onChoose={(kind) => editCorrections((c) => setSlate(c, { kind }))}
      >
        <button
          type="button"
          aria-pressed={slate.kind === 'given'}
          disabled={span === null}
          title={span === null ? 'First say the span in which all is straight' : undefined}
          onClick={() => span !== null && editCorrections((c) => setSlate(c, { kind: 'given', straightFromS: span.fromS, straightToS: span.toS, squareFromS: null, squareToS: null }))}
        >
          all straight over the span
        </button>
      </Choice>
      {slate.kind !== 'given' ? null : (
        <div className="part-row">
          <p className="hint">Elbows square: {slate.squareFromS === null || slate.squareToS === null ? 'not said' : spanWords({ fromS: slate.squareFromS, toS: slate.squareToS })}</p>
          <button type="button" disabled={span === null} onClick={() => span !== null && editCorrections((c) => setSlate(c, { ...slate, squareFromS: span.fromS, squareToS: span.toS }))}>elbows square over the span</button>
        </div>
      )}
    </section>
  );
}
