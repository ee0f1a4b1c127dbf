/** Moves of the whole body in real footage whose truth is unknown, to be held against the eye. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { findMoments } from '../../src/timing/moments/findMoments.ts';
import { cachedTrack } from '../accuracy/cachedTrack.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { spansText } from './clipMoments.ts';

export async function realSquatsLine(): Promise<string> {
  const clip = join(PROJECT_FOLDER, '..', 'shared', 'footage', 'pose_squats.mp4');
  if (!existsSync(clip)) return '**Left out, because it is not there: footage of a woman who squats.**';
  const track = await cachedTrack(clip, 'real-squats', 'full');
  const { moves, pauses } = findMoments(trackToMotion(track, DEFAULT_SETTINGS, fitTake(track, 1)), 1);
  const own = moves.filter(({ of }) => of === 'body');
  return `Real footage, a woman who squats, five frames a second, ${track.timesS.at(-1)!.toFixed(1)} s, without truth: the body makes ${own.length} moves (${spansText(own.map(({ startS, endS }) => [startS, endS]))} s) `
    + `with pauses at ${spansText(pauses.filter(({ of }) => of === 'body').map(({ fromS, toS }) => [fromS, toS]))} s.`;
}
