/**
 * Refuses settings that would make nonsense, with a sentence that names the setting, its value and what is allowed.
 */
import { NudgebookError } from '../errors.ts';
import { SMOOTHERS } from '../motion/smoothing.ts';
import { SETTING_LIMITS, STEP_HOLDS, type PlanSettings } from './settings.ts';

const LIMITED: readonly (readonly [keyof typeof SETTING_LIMITS, string])[] = [
  ['captureFactor', 'The capture factor'],
  ['cutoffHz', 'The smoothing cut-off in Hz'],
  ['rate', 'The rate in exposures a second'],
  ['timeScale', 'The time scale'],
];

/** @throws NudgebookError `bad-settings` for the first setting out of range */
export function validateSettings(settings: PlanSettings): void {
  for (const [key, label] of LIMITED) {
    const { min, max } = SETTING_LIMITS[key];
    const value = settings[key];
    if (!(typeof value === 'number' && value >= min && value <= max)) {
      throw bad(`${label} is ${String(value)}; it must be a number from ${min} to ${max}.`, `Choose a value from ${min} to ${max}.`);
    }
  }
  if (!STEP_HOLDS.includes(settings.on)) {
    throw bad(
      `A pose can’t be held for ${String(settings.on)} exposures; it must be one of ${STEP_HOLDS.join(', ')}.`,
      'Choose ones, twos, threes or fours.',
    );
  }
  if (!SMOOTHERS.includes(settings.smoother)) {
    throw bad(`There is no smoother ${String(settings.smoother)}; there are ${SMOOTHERS.join(' and ')}.`, 'Choose one of them.');
  }
  if (typeof settings.mirror !== 'boolean') throw bad(`Mirror is ${String(settings.mirror)}; it must be on or off.`, 'Switch it on or off.');
  const { inS, outS } = settings;
  for (const [label, value] of [['in', inS], ['out', outS]] as const) {
    if (value !== null && !Number.isFinite(value)) {
      throw bad(`The ${label} point is ${String(value)}; it must be a time in seconds.`, `Set the ${label} point again.`);
    }
  }
  if (inS !== null && outS !== null && inS >= outS) {
    throw bad(`The in point (${inS} s) does not lie before the out point (${outS} s).`, 'Move one of them.');
  }
}

function bad(sentence: string, tip: string): NudgebookError {
  return new NudgebookError('bad-settings', sentence, tip);
}
