/**
 * Reads the words of `npm run plan -- …`. Pure: nothing is opened here, so every wrong word is said before any work starts.
 */
import { NudgebookError } from '../errors.ts';
import { SMOOTHERS } from '../motion/smoothing.ts';
import { CORRECTION_LIMITS, type CameraWord } from '../motion/corrections/corrections.ts';
import { DEFAULT_SETTINGS, type PlanSettings, STEP_HOLDS } from '../plan/settings.ts';
import { MODEL_SIZES, type ModelSize } from '../pose/track.ts';

export const USAGE = `npm run plan -- CLIP --out DIR [options]

  CLIP                 the footage: an MP4, MOV, WebM or MKV file
  --out DIR            folder for plan.json, increments.csv, track.json and summary.txt (made if missing)
  --rate N             exposures a second of the film (default ${DEFAULT_SETTINGS.rate})
  --on N               exposures that one pose is held: 1, 2, 3 or 4 (default ${DEFAULT_SETTINGS.on})
  --cutoff HZ          smoothing cut-off in Hz of the performer's own time, 0 for none, suggest for
                       what the footage suggests (default ${DEFAULT_SETTINGS.cutoffHz})
  --smoother NAME      ${SMOOTHERS.join(' or ')} (default ${DEFAULT_SETTINGS.smoother})
  --model SIZE         lite, full or heavy (default full)
  --armature FILE      the puppet's own body, docs/armature.md (default: the standard figure)
  --time-scale N       film time ÷ performer's time; 2 is twice as slow (default 1)
  --capture-factor N   how many times faster than stored the clip was shot; 8 for 240 stored as 30 (default 1)
  --from S, --to S     part of the clip to use, seconds of the clip (default: all of it)
  --corrections FILE   what was set by hand: placed joints, typed angles and so on (docs/corrections.md)
  --timing FILE        marks, hold pattern, extremes on steps, as set by hand (docs/pace.md)
  --pitch, --roll DEG  the camera's, where they are known (down and clockwise are positive); else estimated
  --fov DEG            the camera's field of view over the height of the upright frame; else 50° over the shorter side
  --mirror             swap left and right
  --readouts           also write readouts.csv: the performer's ISB angles, swing and twist, trunk, head and hands
  --help               this text`;

export interface PlanCommand {
  readonly clip: string;
  readonly out: string;
  readonly armature: string | undefined;
  /** File of corrections. */
  readonly corrections: string | undefined;
  /** File of marks, holds and so on. */
  readonly timing: string | undefined;
  /** What was said about the camera; goes over what the file says. */
  readonly camera: Partial<CameraWord>;
  readonly model: ModelSize;
  readonly settings: PlanSettings;
  /** Smooth at the cut-off that the footage suggests; the one of the settings where it suggests none. */
  readonly suggestCutoff: boolean;
  /** Write the performer's readouts too. */
  readonly readouts: boolean;
}

const VALUED = ['out', 'rate', 'on', 'cutoff', 'smoother', 'model', 'armature', 'time-scale', 'capture-factor', 'from', 'to',
  'corrections', 'timing', 'pitch', 'roll', 'fov'] as const;
type Valued = (typeof VALUED)[number];

function refuse(sentence: string): NudgebookError {
  return new NudgebookError('bad-argument', sentence, 'See `npm run plan -- --help`.');
}

/** Splits the words into the clip, the options with values and the flags; every unknown or doubled word is refused. */
function sortWords(words: readonly string[]): { clips: string[]; values: Map<Valued, string>; mirror: boolean; readouts: boolean; help: boolean } {
  const clips: string[] = [];
  const values = new Map<Valued, string>();
  let mirror = false;
  let readouts = false;
  let help = false;
  for (let i = 0; i < words.length; i += 1) {
    const word = words[i]!;
    if (!word.startsWith('--') || word === '--') {
      if (word !== '--') clips.push(word);
      continue;
    }
    const [name = '', joined] = word.slice(2).split(/=(.*)/s);
    if (name === 'help') help = true;
    else if (name === 'mirror') mirror = true;
    else if (name === 'readouts') readouts = true;
    else if ((VALUED as readonly string[]).includes(name)) {
      const value = joined ?? words[(i += 1)];
      if (value === undefined || value === '') throw refuse(`--${name} needs a value after it.`);
      if (values.has(name as Valued)) throw refuse(`--${name} is given twice.`);
      values.set(name as Valued, value);
    } else throw refuse(`There is no option --${name}.`);
  }
  return { clips, values, mirror, readouts, help };
}

function readNumber(values: ReadonlyMap<Valued, string>, name: Valued): number | undefined {
  const said = values.get(name);
  if (said === undefined) return undefined;
  const value = Number(said);
  if (said.trim() === '' || !Number.isFinite(value)) throw refuse(`--${name} is "${said}", which is no number.`);
  return value;
}

function readCamera(values: ReadonlyMap<Valued, string>): Partial<CameraWord> {
  const options = { pitchDeg: 'pitch', rollDeg: 'roll', verticalFovDeg: 'fov' } as const;
  const camera: { -readonly [K in keyof CameraWord]?: number } = {};
  for (const key of ['pitchDeg', 'rollDeg', 'verticalFovDeg'] as const) {
    const value = readNumber(values, options[key]);
    if (value === undefined) continue;
    const { min, max } = CORRECTION_LIMITS[key];
    if (value < min || value > max) throw refuse(`--${options[key]} is ${value}; it can be ${min} to ${max} degrees.`);
    camera[key] = value;
  }
  return camera;
}

function readChoice<T extends string | number>(said: string | undefined, name: Valued, choices: readonly T[], otherwise: T): T {
  if (said === undefined) return otherwise;
  const found = choices.find((choice) => String(choice) === said);
  if (found === undefined) throw refuse(`--${name} is "${said}"; it can be ${choices.slice(0, -1).join(', ')} or ${choices.at(-1)}.`);
  return found;
}

/**
 * @param words what stands after `npm run plan --`
 * @returns what is ordered, or `'help'`; ranges of the settings are checked by the planner's own `validateSettings`
 * @throws NudgebookError `bad-argument` with one sentence
 */
export function parseArguments(words: readonly string[]): PlanCommand | 'help' {
  const { clips, values, mirror, readouts, help } = sortWords(words);
  if (help) return 'help';
  const [clip] = clips;
  if (clip === undefined) throw refuse('No clip is named.');
  if (clips.length > 1) throw refuse(`One clip at a time: "${clips[1]}" is one too many.`);
  const out = values.get('out');
  if (out === undefined) throw refuse('--out DIR is missing: where should the plan be written?');
  return {
    clip,
    out,
    armature: values.get('armature'),
    corrections: values.get('corrections'),
    timing: values.get('timing'),
    camera: readCamera(values),
    suggestCutoff: values.get('cutoff') === 'suggest',
    readouts,
    model: readChoice(values.get('model'), 'model', MODEL_SIZES, 'full'),
    settings: {
      ...DEFAULT_SETTINGS,
      rate: readNumber(values, 'rate') ?? DEFAULT_SETTINGS.rate,
      on: readChoice(values.get('on'), 'on', STEP_HOLDS, DEFAULT_SETTINGS.on),
      cutoffHz: (values.get('cutoff') === 'suggest' ? undefined : readNumber(values, 'cutoff')) ?? DEFAULT_SETTINGS.cutoffHz,
      smoother: readChoice(values.get('smoother'), 'smoother', SMOOTHERS, DEFAULT_SETTINGS.smoother),
      timeScale: readNumber(values, 'time-scale') ?? DEFAULT_SETTINGS.timeScale,
      captureFactor: readNumber(values, 'capture-factor') ?? DEFAULT_SETTINGS.captureFactor,
      inS: readNumber(values, 'from') ?? null,
      outS: readNumber(values, 'to') ?? null,
      mirror,
    },
  };
}
