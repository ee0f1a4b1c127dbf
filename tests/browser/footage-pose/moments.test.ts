/** What moves when, from video to moments, against the truth beside the clips. */
import { describe, expect, it } from 'vitest';
import { clipFiles } from '../../../scripts/accuracy/clipFiles.ts';
import { readTruth } from '../../../scripts/accuracy/truthFile.ts';
import { foundArmPause, trueArmPause, trueLandings } from '../../../scripts/pace/clipChecks.ts';
import { fitTake } from '../../../src/motion/fit/fitTake.ts';
import { trackToMotion } from '../../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../../src/plan/settings.ts';
import { trackFromJson } from '../../../src/pose/trackJson.ts';
import { cadencePerMin, thighPassings } from '../../../src/timing/moments/cadence.ts';
import { poseInApp } from './labClip.ts';

/** One step on twos at 24. */
const STEP_S = 1 / 12;
const clip = (name: string) => clipFiles().there.find((one) => one.name === name)!;

describe('moments from video', () => {
  it('the pause of the raised arm begins and ends within a step of its truth', async () => {
    const { clip: file, truth } = clip('arm-raise');
    const found = foundArmPause(trackFromJson((await poseInApp(file, { model: 'full' })).track));
    trueArmPause(readTruth(truth)).forEach((wantedS, k) => expect(Math.abs(found![k]! - wantedS)).toBeLessThan(STEP_S));
  });

  it('the walk has the cadence of its truth within 5 %, and one that people walk at', async () => {
    const { clip: file, truth } = clip('walk');
    const track = trackFromJson((await poseInApp(file, { model: 'full' })).track);
    const found = cadencePerMin(thighPassings(trackToMotion(track, DEFAULT_SETTINGS, fitTake(track, 1))));
    // single landings of the truth are known to a frame: 1/30 s of five steps, 1.3 %
    expect(Math.abs(found / cadencePerMin(trueLandings(readTruth(truth))) - 1)).toBeLessThan(0.05);
    // walking in the street, 95 to 160 steps a minute (sample in Japan, 1987)
    expect(found).toBeGreaterThan(95);
    expect(found).toBeLessThan(160);
  });
});
