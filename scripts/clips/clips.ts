// The list of all clips. New clips are new rows in one of the three lists.
import { CLIP_SETS, PRACTICE, type Clip, type ClipSet, type HalfClip } from './clip.ts';
import { PRACTICE_CLIPS } from './practiceClips.ts';
import { REFERENCE_CLIPS } from './referenceClips.ts';
import { REPORTING_CLIPS } from './reportingClips.ts';
import { TUNING_CLIPS } from './tuningClips.ts';

/** The committed clips first, then by turns one for tuning and one for reporting, so that both halves grow as they are made. */
export const CLIPS: readonly HalfClip[] = [
  ...REFERENCE_CLIPS,
  ...Array.from({ length: Math.max(TUNING_CLIPS.length, REPORTING_CLIPS.length) }, (_, i) => [TUNING_CLIPS[i], REPORTING_CLIPS[i]])
    .flat().filter((clip) => clip !== undefined),
];

/** A clip by name; throws with the names there are. */
export function clipNamed(name: string): Clip {
  const clip = [...CLIPS, ...PRACTICE_CLIPS].find((c) => c.name === name);
  if (clip === undefined) throw new Error(`no clip "${name}"; there are: ${CLIPS.map((c) => c.name).join(', ')}`);
  return clip;
}

/** The clips that one makes on demand, of one half or all; throws with the words there are. */
export function clipsToMake(set: string): readonly Clip[] {
  if (set === PRACTICE) return PRACTICE_CLIPS;
  const made = CLIPS.filter((clip) => !clip.committed);
  if (set === 'all') return made;
  if (!CLIP_SETS.includes(set as ClipSet)) throw new Error(`no set "${set}"; there are: ${[...CLIP_SETS, 'all'].join(', ')}`);
  return made.filter((clip) => clip.set === set);
}
