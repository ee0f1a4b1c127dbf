/** How much noise the speeds of real tracks carry, limb by limb, to hold the drawn motions against. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import type { Track } from '../../src/pose/track.ts';
import { trackFromJson, type TrackJson } from '../../src/pose/trackJson.ts';
import { limbSpeeds, noiseDegPerS } from '../../src/timing/moments/limbSpeed.ts';
import { cachedTrack } from '../accuracy/cachedTrack.ts';
import { clipFiles } from '../accuracy/clipFiles.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';

function noiseRow(name: string, track: Track): string[] {
  const motion = trackToMotion(track, DEFAULT_SETTINGS, fitTake(track, 1));
  return [name, ...limbSpeeds(motion, 1).limbs.map((speed) => noiseDegPerS(speed).toFixed(1))];
}

/** Rows for the demo and for two clips posed from video (model full): name, then each limb in the order of LIMBS, degrees a second, one sigma. */
export async function realNoiseRows(): Promise<readonly string[][]> {
  const demo = JSON.parse(readFileSync(join(PROJECT_FOLDER, 'src/app/demo/one-leg-reach.track.json'), 'utf8')) as { track: TrackJson };
  const rows = [noiseRow('the demo', trackFromJson(demo.track))];
  for (const name of ['arm-raise', 'walk']) {
    const { clip } = clipFiles().there.find((one) => one.name === name)!;
    rows.push(noiseRow(name, await cachedTrack(clip, name, 'full')));
  }
  return rows;
}
