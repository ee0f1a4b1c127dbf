/**
 * Says in a few words what an edit changed, so that the screen can offer "Undo: rate 24 → 12".
 */
import type { PoiseSettings } from '../balance/poiseSettings.ts';
import type { PlanSettings, StepHold } from '../plan/settings.ts';
import { describeCorrections } from './describeCorrections.ts';
import type { PuppetSettings } from '../puppet/puppetSettings.ts';
import type { TimingSettings } from '../timing/timingSettings.ts';
import type { Book } from './document.ts';

const HOLD_WORD: Readonly<Record<StepHold, string>> = { 1: 'ones', 2: 'twos', 3: 'threes', 4: 'fours' };

/** How each setting is called in a label and how its value is written there. */
const SETTING_WORDS: { readonly [K in keyof PlanSettings]: readonly [string, (value: PlanSettings[K]) => string] } = {
  inS: ['in point', (s) => (s === null ? 'start' : `${short(s)} s`)],
  outS: ['out point', (s) => (s === null ? 'end' : `${short(s)} s`)],
  captureFactor: ['capture factor', (x) => `×${short(x)}`],
  mirror: ['mirror', (on) => (on ? 'on' : 'off')],
  cutoffHz: ['smoothing', (hz) => (hz === 0 ? 'off' : `${short(hz)} Hz`)],
  smoother: ['smoother', (name) => name],
  rate: ['rate', (perS) => short(perS)],
  on: ['on', (hold) => HOLD_WORD[hold]],
  timeScale: ['time scale', (x) => `×${short(x)}`],
};

/** A number with at most three decimals and none that say nothing. */
function short(value: number): string {
  return String(Math.round(value * 1000) / 1000);
}

/**
 * The difference of two books in a few words; of many differences the first two are named.
 *
 * @returns e.g. `rate 24 → 12`, `step 5 photographed`, `note on step 3`; `no change` when they hold the same
 */
export function describeChange(before: Book, after: Book): string {
  const said: string[] = [];
  if (before.title !== after.title) said.push(`title “${before.title}” → “${after.title}”`);
  if (!same(before.take, after.take)) said.push(after.take === null ? 'take removed' : `take ${after.take.name}`);
  if (before.model !== after.model) said.push(`model ${before.model} → ${after.model}`);
  for (const key of Object.keys(SETTING_WORDS) as (keyof PlanSettings)[]) {
    const words = settingChange(key, before.settings, after.settings);
    if (words !== null) said.push(words);
  }
  said.push(...describeCorrections(before.corrections, after.corrections));
  if (!same(before.armature, after.armature)) said.push(`armature ${after.armature === null ? 'standard figure' : after.armature.name}`);
  said.push(...puppetChange(before.puppet, after.puppet));
  said.push(...partsChange(TIMING_WORDS, before.timing, after.timing), ...partsChange(POISE_WORDS, before.poise, after.poise));
  if (!same(before.timingVersions, after.timingVersions)) said.push('kept timings');
  said.push(...shotChange(before.shotSteps, after.shotSteps), ...noteChange(before.notes, after.notes));
  if (said.length === 0) return 'no change';
  const named = said.slice(0, 2).join(', ');
  return said.length > 2 ? `${named} and ${said.length - 2} more` : named;
}

function settingChange<K extends keyof PlanSettings>(key: K, before: PlanSettings, after: PlanSettings): string | null {
  if (Object.is(before[key], after[key])) return null;
  const [name, write] = SETTING_WORDS[key];
  return `${name} ${write(before[key])} → ${write(after[key])}`;
}

const PUPPET_WORDS: Readonly<Record<keyof PuppetSettings, string>> = {
  drives: 'how the puppet follows', curves: 'hand-set curves', pins: 'pins', plantFeet: 'standing feet', datum: 'datum readings',
  view: 'view of the taking camera', apparentHeightM: 'apparent height',
};

function puppetChange(before: PuppetSettings, after: PuppetSettings): string[] {
  return (Object.keys(PUPPET_WORDS) as (keyof PuppetSettings)[])
    .filter((key) => !same(before[key], after[key]))
    .map((key) => (key === 'plantFeet' ? `standing feet ${after.plantFeet ? 'planted' : 'as performed'}` : PUPPET_WORDS[key]));
}

const TIMING_WORDS: Readonly<Record<keyof TimingSettings, string>> = {
  marks: 'marks', snapJoints: 'extremes on steps', holdSpans: 'hold pattern', alive: 'pauses kept alive', gauge: 'film gauge',
};

const POISE_WORDS: Readonly<Record<keyof PoiseSettings, string>> = {
  table: 'mass table', pendulumFactor: 'pendulum', touches: 'what touches', tieDowns: 'tie-downs', props: 'props', marginMm: 'wanted margin',
  corrections: 'corrections of the balance',
};

function partsChange<T extends object>(words: Readonly<Record<keyof T, string>>, before: T, after: T): string[] {
  return (Object.keys(words) as (keyof T)[]).filter((key) => !same(before[key], after[key])).map((key) => words[key]);
}

function shotChange(before: readonly number[], after: readonly number[]): string[] {
  const was = new Set(before);
  const is = new Set(after);
  const added = after.filter((step) => !was.has(step));
  const removed = before.filter((step) => !is.has(step));
  if (added.length + removed.length === 0) return [];
  if (added.length === 1 && removed.length === 0) return [`step ${added[0]} photographed`];
  if (removed.length === 1 && added.length === 0) return [`step ${removed[0]} not photographed`];
  return ['photographed steps'];
}

function noteChange(before: Book['notes'], after: Book['notes']): string[] {
  const steps = new Set([...Object.keys(before), ...Object.keys(after)]);
  const changed = [...steps].filter((step) => before[step] !== after[step]);
  if (changed.length === 0) return [];
  return changed.length === 1 ? [`note on step ${changed[0]}`] : ['notes'];
}

/** Equal as documents: the parts of a book are plain data whose fields are written in a fixed order. */
function same(a: unknown, b: unknown): boolean {
  return a === b || JSON.stringify(a) === JSON.stringify(b);
}
