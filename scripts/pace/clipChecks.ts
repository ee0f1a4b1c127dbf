/**
 * The pause in the arm-raise clip and the cadence of the walk, from video, against the truth beside the clips; the cadence against
 * published gait as well.
 */
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { cadencePerMin, thighPassings } from '../../src/timing/moments/cadence.ts';
import { findMoments } from '../../src/timing/moments/findMoments.ts';
import type { Track } from '../../src/pose/track.ts';
import { cachedTrack } from '../accuracy/cachedTrack.ts';
import { clipFiles } from '../accuracy/clipFiles.ts';
import { readTruth, type Truth } from '../accuracy/truthFile.ts';

/** What the arm-raise clip does by its script: the arm stops at 82° for 0.8 s. */
export function trueArmPause(truth: Truth): readonly [fromS: number, toS: number] {
  const joint = truth.joints['rightShoulder'];
  if (joint?.kind !== 'ball') throw new Error('the clip has no right shoulder');
  const speed = joint.rotation.map((q, t) => {
    const before = joint.rotation[t - 1] ?? q;
    // four times the arc sine of half the chord: exact for small turns, and deaf to rounding
    return (4 * Math.asin(Math.min(1, Math.hypot(...q.map((v, c) => v - before[c]!)) / 2)) * 180) / Math.PI / (truth.timesS[1]! - truth.timesS[0]!);
  });
  // the first long rest after the first quick rise
  const up = speed.findIndex((v) => v > 40);
  let from = up;
  while (speed[from]! > 5) from++;
  let to = from;
  while (speed[to + 1]! <= 5) to++;
  return [truth.timesS[from]!, truth.timesS[to]!];
}

export function foundArmPause(track: Track): readonly [fromS: number, toS: number] | null {
  const motion = trackToMotion(track, DEFAULT_SETTINGS, fitTake(track, 1));
  const own = findMoments(motion, 1).pauses.filter(({ of, fromS }) => of === 'rightArm' && fromS > 0.3);
  return own[0] === undefined ? null : [own[0].fromS, own[0].toS];
}

/** Times at which a true foot lands, both feet in order. */
export function trueLandings(truth: Truth): readonly number[] {
  return [truth.leftFootOnFloor, truth.rightFootOnFloor].flatMap((on) => on.flatMap((v, t) => (t > 0 && v === 1 && on[t - 1] === 0 ? [truth.timesS[t]!] : []))).sort((a, b) => a - b);
}

export async function clipChecks(): Promise<string[]> {
  const file = (name: string) => clipFiles().there.find((one) => one.name === name)!;
  const [raise, walk] = [file('arm-raise'), file('walk')];
  const raiseTrack = await cachedTrack(raise.clip, raise.name, 'full');
  const walkTrack = await cachedTrack(walk.clip, walk.name, 'full');
  const pause = trueArmPause(readTruth(raise.truth));
  const found = foundArmPause(raiseTrack);
  const motion = trackToMotion(walkTrack, DEFAULT_SETTINGS, fitTake(walkTrack, 1));
  const wanted = trueLandings(readTruth(walk.truth));
  const passings = thighPassings(motion);
  const seconds = (span: readonly [number, number] | null): string => (span === null ? 'none' : `${span[0].toFixed(2)} to ${span[1].toFixed(2)} s (${(span[1] - span[0]).toFixed(2)} s)`);
  return [
    `From video (model full): the pause of the arm in *arm-raise* is truly from ${seconds(pause)}, and is found from ${seconds(found)}.`,
    `The *walk* lands ${wanted.length} times at ${cadencePerMin(wanted).toFixed(1)} steps a minute; found are ${passings.length} passings of the thighs at ${cadencePerMin(passings).toFixed(1)}. `
    + 'Published: 121.6 a minute in the trial of Winter’s table A.1, 95 to 160 in the street (Japan 1987); natural cadence about 100 to 120 (from memory).',
  ];
}
