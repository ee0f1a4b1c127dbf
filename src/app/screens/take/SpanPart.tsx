/** What holds over a span: depth of a limb, standing feet, left and right. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { plainName } from '../../../book/describeCorrections.ts';
import type { SwapPart } from '../../../motion/corrections/corrections.ts';
import { flipSpan } from '../../../motion/corrections/flipSpan.ts';
import { limbOf } from '../../corrections/correctable.ts';
import { contactSpan } from '../../corrections/spans.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Key } from '../../fields/Key.tsx';
import { runCommand } from '../../state/commands.ts';
import { correcting, rejectSwap, saidSpan } from '../../state/correcting.ts';
import { goToTime } from '../../state/shownFrame.ts';
import { useBook, useSession } from '../../state/use.ts';
import { spanWords } from './spanWords.ts';
import { useShownFrame } from './useShownFrame.ts';

const BONE_WORDS = { upper: ', upper bone', lower: ', lower bone', both: '' } as const;
const SWAP_STATES = { repaired: 'turned back', doubtful: 'in doubt, left as measured', byHand: 'turned back by hand' } as const;
const PARTS: readonly { readonly value: SwapPart; readonly words: string }[] = [
  { value: 'all', words: 'whole body' }, { value: 'arms', words: 'arms' }, { value: 'legs', words: 'legs' },
];

export function SpanPart(): ReactElement {
  const here = useShownFrame();
  const fit = useSession((s) => s.fit);
  const { chosen, fromS, toS, swapPart } = useStore(correcting);
  const limb = chosen === null ? null : limbOf(chosen);
  const said = here === null ? null : saidSpan();
  const depth = said ?? (fit === null || here === null || limb === null ? null : flipSpan(fit.body, here.frame, limb));
  return (
    <section className="part" aria-label="Over a span">
      <div className="part-row">
        <p className="span-words">
          Span: {fromS === null && toS === null ? <span className="hint">not said; each act takes the one that suits it</span> : said === null ? '–' : spanWords(said)}
        </p>
      </div>
      <div className="part-row part-buttons">
        <button type="button" onClick={() => runCommand('spanFrom')}>from here <Key of="spanFrom" /></button>
        <button type="button" onClick={() => runCommand('spanTo')}>to here <Key of="spanTo" /></button>
        <button type="button" disabled={fromS === null && toS === null} onClick={() => runCommand('clearSpan')}>none <Key of="clearSpan" /></button>
      </div>
      <div className="part-act">
        <button type="button" disabled={limb === null || here === null} onClick={() => runCommand('turnDepth')}>Turn over in depth <Key of="turnDepth" /></button>
        <p className="hint">{limb === null ? 'Choose a joint of an arm or leg: its bone leans to the lens instead of away, or back.' : `${plainName(limb.limb)}${BONE_WORDS[limb.bone]}${depth === null ? '' : `, ${spanWords(depth)}`}`}</p>
      </div>
      <Feet />
      <Choice label="Left and right" value={swapPart} options={PARTS} onChoose={(part) => correcting.setState({ swapPart: part })}>
        <button type="button" disabled={here === null} onClick={() => runCommand('swapSides')}>Swapped {said === null ? 'in this frame' : 'over the span'} <Key of="swapSides" /></button>
      </Choice>
      <FoundSwaps />
    </section>
  );
}

function Feet(): ReactElement {
  const here = useShownFrame();
  const fit = useSession((s) => s.fit);
  const said = useStore(correcting, (s) => s.fromS !== null || s.toS !== null);
  return (
    <div className="part-feet">
      {(['left', 'right'] as const).map((foot) => {
        const span = fit === null || here === null ? null : contactSpan(fit.body, here.frame, foot);
        return (
          <div key={foot} className="part-act">
            <button type="button" aria-pressed={span?.stands ?? false} disabled={span === null} onClick={() => runCommand(foot === 'left' ? 'leftFoot' : 'rightFoot')}>
              {foot === 'left' ? 'Left' : 'Right'} foot {span === null ? 'stands?' : span.stands ? 'stands' : 'is free'} <Key of={foot === 'left' ? 'leftFoot' : 'rightFoot'} />
            </button>
            <p className="hint">{span === null ? 'known once the body is fitted' : `${spanWords(span)}${said ? '; the span is turned' : ''}`}</p>
          </div>
        );
      })}
    </div>
  );
}

/** Swaps that the fit has found by itself, to be looked at and, where wrong, refused. */
function FoundSwaps(): ReactElement | null {
  const swaps = useSession((s) => s.fit?.body.swaps);
  const words = useBook((b) => b.corrections.swaps);
  if (swaps === undefined || swaps.length === 0) return <p className="hint">No place was found where left and right change over.</p>;
  return (
    <ul className="spans" aria-label="Swaps of left and right">
      {swaps.map((swap) => {
        const refused = words.some((w) => !w.swapped && w.part === swap.part && w.fromS === swap.fromS);
        return (
          <li key={`${swap.part} ${swap.fromS}`}>
            <button type="button" className="span-go" onClick={() => goToTime(swap.fromS)}>{swap.part === 'all' ? 'left and right' : swap.part}, {spanWords(swap)}</button>
            <span>{SWAP_STATES[swap.state]}</span>
            {swap.state === 'byHand' ? null : <button type="button" aria-pressed={refused} onClick={() => rejectSwap(swap)}>no swap</button>}
          </li>
        );
      })}
    </ul>
  );
}
