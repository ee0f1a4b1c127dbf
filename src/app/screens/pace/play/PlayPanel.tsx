/** The plan at its speed, beside the take; and a stopwatch to tap along. */
import type { ReactElement } from 'react';
import { useStore } from 'zustand';
import { figure } from '../../../../charts/figures.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { Choice } from '../../../fields/Choice.tsx';
import { NumberField } from '../../../fields/NumberField.tsx';
import { keyWords } from '../../../keys/keymap.ts';
import { nameOfView } from '../../../../charts/figure/view.ts';
import { PLAY_SPEEDS, type PlaySpeed } from '../../../play/playClock.ts';
import { type Player, player, setPlayer, type Shown, startPlaying, stopPlaying } from '../../../play/player.ts';
import { lookFrom, puppetView } from '../../../puppet3d/puppetView.ts';
import { paceView } from '../../../state/paceView.ts';
import { StopwatchPart } from './StopwatchPart.tsx';

const SHOWN_WORDS: readonly { readonly value: Shown; readonly words: string }[] = [
  { value: 'take', words: 'take and skeleton' }, { value: 'puppet', words: 'puppet' }, { value: 'both', words: 'both' },
];
const SEEN_FROM = [{ value: 'front', words: 'front' }, { value: 'side', words: 'side' }, { value: 'turned', words: 'turned' }] as const;
const SPEED_WORDS: Readonly<Record<PlaySpeed, string>> = { 1: 'full', 0.5: 'half', 0.25: 'quarter' };

export function PlayPanel({ plan }: { readonly plan: Plan }): ReactElement {
  const now = useStore(player);
  const span = useStore(paceView, (s) => s.span);
  const seenFrom = useStore(puppetView, (s) => nameOfView(s.view));
  return (
    <section className="panel play-panel" aria-label="Play">
      <button type="button" className="lamp" disabled={plan.stepCount === 0} onClick={now.playing ? stopPlaying : startPlaying}>{now.playing ? 'Stop' : 'Play'}{now.stopwatch ? '' : ` (${keyWords('playOrTap')})`}</button>
      <p className="hint">{span === null ? 'The whole plan' : `Steps ${span[0] + 1}–${span[1] + 1}, the span beside the rows`}, each pose for its exposures.</p>
      <Choice<Shown> label="Shown" value={now.shows} options={SHOWN_WORDS} onChoose={(shows) => setPlayer({ shows })} />
      {now.shows === 'take' ? null : <Choice label="Puppet seen from" value={SEEN_FROM.find(({ value }) => value === seenFrom)?.value ?? null} options={SEEN_FROM} onChoose={lookFrom} />}
      <div className="play-how">
        <Choice<PlaySpeed> label="Speed" value={now.speed} options={PLAY_SPEEDS.map((value) => ({ value, words: SPEED_WORDS[value] }))} onChoose={(speed) => setPlayer({ speed })} />
        <Choice<string> label="Way" value={now.backwards ? 'backwards' : 'forwards'} options={['forwards', 'backwards'].map((value) => ({ value, words: value }))} onChoose={(value) => setPlayer({ backwards: value === 'backwards' })} />
        <Choice<string> label="At the end" value={now.looped ? 'again' : 'stop'} options={['again', 'stop'].map((value) => ({ value, words: value }))} onChoose={(value) => setPlayer({ looped: value === 'again' })} />
        <Choice<Player['clicks']> label="Click" value={now.clicks} options={[{ value: 'off', words: 'off' }, { value: 'step', words: 'each step' }, { value: 'beat', words: 'each beat' }]} onChoose={(clicks) => setPlayer({ clicks })} />
        {now.clicks === 'beat' ? <NumberField label="Beats" unit="a minute" value={now.beatsPerMinute} min={20} max={400} step={1} decimals={1} onCommit={(v) => v !== null && setPlayer({ beatsPerMinute: v })} /> : null}
        {now.clicks === 'off' ? null : <NumberField label="Volume of the click" unit="%" value={now.volume * 100} min={0} max={100} step={5} decimals={0} onCommit={(v) => v !== null && setPlayer({ volume: v / 100 })} />}
      </div>
      {now.clicks !== 'off' && now.soundRefused ? <p className="hint" role="alert">The browser keeps the sound off. Allow sound for this page, then press a click again.</p> : null}
      {now.clicks === 'beat' ? <p className="hint">One beat every {figure((60 * plan.rate) / now.beatsPerMinute, 1)} exposures, counted from the first; at half speed half as often, so that they stay with the picture.</p> : null}
      <StopwatchPart plan={plan} />
    </section>
  );
}
