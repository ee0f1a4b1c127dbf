/** What sets the pace: rate, hold, time scale, smoothing; and what comes of it in steps, exposures and seconds. */
import { memo, type ReactElement } from 'react';
import { figure } from '../../../charts/figures.ts';
import type { Smoother } from '../../../motion/smoothing.ts';
import { SETTING_LIMITS, STEP_HOLDS, type StepHold } from '../../../plan/settings.ts';
import { Choice } from '../../fields/Choice.tsx';
import { Key } from '../../fields/Key.tsx';
import { NumberField } from '../../fields/NumberField.tsx';
import { editSettings } from '../../state/bookStore.ts';
import { runCommand } from '../../state/commands.ts';
import { useSession, useSetting } from '../../state/use.ts';
import { useStore } from 'zustand';
import { paceView, type PaceViewName } from '../../state/paceView.ts';
import { JointChooser } from './JointChooser.tsx';
import { LimbChooser } from './limbs/LimbChooser.tsx';
import { ReadoutChooser } from './readouts/ReadoutChooser.tsx';
import { VIEWS } from './views.ts';

const RATES = [12, 24, 25, 30] as const;
const HOLD_WORDS: Readonly<Record<StepHold, string>> = { 1: 'ones', 2: 'twos', 3: 'threes', 4: 'fours' };
/** What one press of − or + changes. */
const SCALE_STEP = 0.05;
const CUTOFF_SLIDER_MAX_HZ = 15;

export const PaceControls = memo(function PaceControls({ shown }: { readonly shown: readonly number[] }): ReactElement {
  return (
    <div className="strip strip-pace">
      <Count />
      <RateField />
      <HoldField />
      <ScaleField />
      <CutoffField />
      <SmootherField />
      <ViewChoice />
      <RowsChooser shown={shown} />
    </div>
  );
});

/** What runs along the rows. */
function ViewChoice(): ReactElement {
  const view = useStore(paceView, (s) => s.view);
  const options: readonly { value: PaceViewName; words: string }[] = [{ value: 'joints', words: 'Joints' }, ...VIEWS.map(({ name, words }) => ({ value: name, words })), { value: 'readouts', words: 'Readouts' }];
  const compares = (name: PaceViewName): boolean => VIEWS.some((one) => one.name === name);
  return <Choice label="Along the rows" value={view} options={options} onChoose={(name) => paceView.setState(compares(name) ? { view: name, panel: 'leads' } : { view: name })} />;
}

/** Of what: joints of the puppet, limbs, or the performer's joint that is read out. The lanes of moves are always those of all limbs. */
function RowsChooser({ shown }: { readonly shown: readonly number[] }): ReactElement | null {
  const view = useStore(paceView, (s) => s.view);
  if (view === 'moves') return null;
  return view === 'readouts' ? <ReadoutChooser /> : view === 'limbs' ? <LimbChooser /> : <JointChooser shown={shown} />;
}

function Count(): ReactElement {
  const plan = useSession((s) => s.plan);
  const exposures = plan?.exposureCount ?? 0;
  return (
    <dl className="count" aria-live="off">
      <div><dd>{plan === null ? '–' : plan.stepCount}</dd><dt>steps</dt></div>
      <div><dd>{plan === null ? '–' : exposures}</dd><dt>exposures</dt></div>
      <div><dd>{plan === null ? '–' : figure(exposures / plan.rate, 2)}</dd><dt>seconds</dt></div>
    </dl>
  );
}

function RateField(): ReactElement {
  const rate = useSetting('rate');
  return (
    <Choice label="Exposures per second" value={rate} options={RATES.map((r) => ({ value: r, words: r }))} onChoose={(r) => editSettings({ rate: r })}>
      <NumberField hideLabel label="Other rate" value={rate} min={SETTING_LIMITS.rate.min} max={SETTING_LIMITS.rate.max} step={1} decimals={3} widthCh={5} onCommit={(v) => v !== null && editSettings({ rate: v })} />
    </Choice>
  );
}

function HoldField(): ReactElement {
  const on = useSetting('on');
  return <Choice label="Each pose held on" value={on} options={STEP_HOLDS.map((h) => ({ value: h, words: HOLD_WORDS[h] }))} onChoose={(h) => editSettings({ on: h })} />;
}

function ScaleField(): ReactElement {
  const timeScale = useSetting('timeScale');
  const { min, max } = SETTING_LIMITS.timeScale;
  const by = (step: number): void => {
    const next = Math.round((timeScale + step) / SCALE_STEP) * SCALE_STEP;
    editSettings({ timeScale: Math.max(min, Math.min(max, Number(next.toFixed(3)))) }, { key: 'timeScale' });
  };
  return (
    <div className="field">
      <span className="field-label">Time scale</span>
      <span className="choice-row">
        <button type="button" aria-label="Faster: smaller time scale" title="Faster" onClick={() => by(-SCALE_STEP)}>−</button>
        <NumberField hideLabel label="Time scale: film time over performed time" unit="×" value={timeScale} min={min} max={max} step={SCALE_STEP} decimals={3} widthCh={5} onCommit={(v) => v !== null && editSettings({ timeScale: v }, { key: 'timeScale' })} />
        <button type="button" aria-label="Slower: larger time scale" title="Slower" onClick={() => by(SCALE_STEP)}>+</button>
      </span>
    </div>
  );
}

function CutoffField(): ReactElement {
  const cutoffHz = useSetting('cutoffHz');
  const plan = useSession((s) => s.plan);
  const used = plan?.usedCutoffHz;
  const differs = used !== undefined && used !== null && Math.abs(used - cutoffHz) > 0.05;
  return (
    <div className="field">
      <span className="field-label">
        Smoothing cut-off
        {plan === null ? '' : cutoffHz === 0 || used === null ? ' · off' : differs ? ` · used ${figure(used, 1)} Hz` : ''}
      </span>
      <span className="choice-row">
        <input
          type="range"
          aria-label="Smoothing cut-off, hertz; 0 is off"
          min={0}
          max={CUTOFF_SLIDER_MAX_HZ}
          step={0.5}
          value={Math.min(cutoffHz, CUTOFF_SLIDER_MAX_HZ)}
          onChange={(event) => editSettings({ cutoffHz: Number(event.target.value) }, { key: 'cutoffHz' })}
        />
        <NumberField hideLabel label="Smoothing cut-off" unit="Hz" value={cutoffHz} min={SETTING_LIMITS.cutoffHz.min} max={SETTING_LIMITS.cutoffHz.max} step={0.5} decimals={2} widthCh={4} onCommit={(v) => v !== null && editSettings({ cutoffHz: v }, { key: 'cutoffHz' })} />
        <SuggestedCutoff />
      </span>
    </div>
  );
}

/** What the footage itself asks for, and the button that takes it. */
function SuggestedCutoff(): ReactElement | null {
  const suggested = useSession((s) => s.cutoff);
  const cutoffHz = useSetting('cutoffHz');
  if (suggested === null) return null;
  if (suggested.cutoffHz === null) return <span className="field-label" title={suggested.why}>footage suggests –</span>;
  const taken = suggested.cutoffHz === cutoffHz;
  return (
    <button type="button" disabled={taken} title="From residual analysis of the landmarks’ paths" onClick={() => runCommand('takeCutoff')}>
      Footage suggests {figure(suggested.cutoffHz, 1)} Hz <Key of="takeCutoff" />
    </button>
  );
}

const SMOOTHER_WORDS: Readonly<Record<Smoother, string>> = { penalised: 'penalised', butterworth: 'Butterworth' };

function SmootherField(): ReactElement {
  const smoother = useSetting('smoother');
  return (
    <Choice
      label="Smoother"
      value={smoother}
      options={(['penalised', 'butterworth'] as const).map((name) => ({ value: name, words: SMOOTHER_WORDS[name] }))}
      onChoose={(name) => editSettings({ smoother: name })}
    />
  );
}
