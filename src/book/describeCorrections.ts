/** Says in plain words which correction came, went or changed, for the label of an undo. */
import type { CameraWord, ContactWord, Corrections, DepthFlip, PlacedJoint, SlateWord, SwapWord, TypedAngle } from '../motion/corrections/corrections.ts';

/** A name of the program in a person's words: `leftFootIndex` → `left toe`, `mouthLeft` → `left mouth corner`. */
export function plainName(name: string): string {
  return SPECIAL_NAMES[name] ?? name.replace(/([A-Z])/g, ' $1').toLowerCase();
}
const SPECIAL_NAMES: Readonly<Record<string, string>> = {
  leftFootIndex: 'left toe', rightFootIndex: 'right toe', mouthLeft: 'left mouth corner', mouthRight: 'right mouth corner',
  spine: 'trunk lean', neck: 'head turn', head: 'head nod',
};

const at = (timeS: number): string => `${timeS.toFixed(2)} s`;
const over = ({ fromS, toS }: { readonly fromS: number; readonly toS: number }): string => `from ${at(fromS)} to ${at(toS)}`;
const degrees = (value: number): string => `${Math.round(value * 10) / 10}°`;

const PARTS = { upper: ' upper bone', lower: ' lower bone', both: '' } as const;
const SWAPPED = { all: 'left and right', arms: 'the arms', legs: 'the legs' } as const;

const placed = (joint: PlacedJoint): string => `${plainName(joint.landmark)} placed at ${at(joint.timeS)}`;
const typed = ({ joint, angleDeg, timeS }: TypedAngle): string => `${plainName(joint)} ${degrees(angleDeg)} at ${at(timeS)}`;
const flipped = (flip: DepthFlip): string => `${plainName(flip.limb)}${PARTS[flip.bone]} turned in depth ${over(flip)}`;
const swapped = (word: SwapWord): string => `${SWAPPED[word.part]} ${word.swapped ? 'swapped' : 'not swapped'} ${over(word)}`;
const stands = (word: ContactWord): string => `${word.foot} foot ${word.stands ? 'stands' : 'free'} ${over(word)}`;

/** What one list gained or lost; an entry that changed at the same place (a drag) is one that came. */
function listChange<Entry>(what: string, before: readonly Entry[], after: readonly Entry[], words: (entry: Entry) => string): string[] {
  if (before === after) return [];
  const was = new Set(before.map((entry) => JSON.stringify(entry)));
  const is = new Set(after.map((entry) => JSON.stringify(entry)));
  const came = after.filter((entry) => !was.has(JSON.stringify(entry)));
  const went = before.filter((entry) => !is.has(JSON.stringify(entry)));
  if (came.length === 0 && went.length === 0) return [];
  if (came.length === 1 && went.length <= 1) return [words(came[0]!)];
  if (went.length === 1 && came.length === 0) return [`taken back: ${words(went[0]!)}`];
  return [what];
}

function cameraChange(before: CameraWord, after: CameraWord): string[] {
  const names = { pitchDeg: 'camera pitch', rollDeg: 'camera roll', verticalFovDeg: 'field of view' } as const;
  return (Object.keys(names) as (keyof CameraWord)[])
    .filter((key) => before[key] !== after[key])
    .map((key) => `${names[key]} ${after[key] === null ? 'estimated' : degrees(after[key])}`);
}

function slateChange(before: SlateWord, after: SlateWord): string[] {
  if (JSON.stringify(before) === JSON.stringify(after)) return [];
  if (after.kind === 'given') return [`slate pose from ${at(after.straightFromS)}`];
  return [after.kind === 'none' ? 'no slate pose' : 'slate pose looked for'];
}

/**
 * The differences of two sets of corrections in a few words each.
 *
 * @returns e.g. `left elbow placed at 1.23 s`, `right knee 12° at 1.30 s`; empty when they hold the same
 */
export function describeCorrections(before: Corrections, after: Corrections): string[] {
  if (before === after) return [];
  return [
    ...cameraChange(before.camera, after.camera),
    ...listChange('placed joints', before.placed, after.placed, placed),
    ...listChange('typed angles', before.angles, after.angles, typed),
    ...listChange('depth flips', before.depthFlips, after.depthFlips, flipped),
    ...listChange('swaps of left and right', before.swaps, after.swaps, swapped),
    ...listChange('standing feet', before.contacts, after.contacts, stands),
    ...slateChange(before.slate, after.slate),
  ];
}
