/** Moves of the own clips as found from their video, against those that the same rules find in their truth. */
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { findMoments } from '../../src/timing/moments/findMoments.ts';
import { LIMBS, type Moments } from '../../src/timing/moments/moments.ts';
import { cachedTrack } from '../accuracy/cachedTrack.ts';
import { clipFiles } from '../accuracy/clipFiles.ts';
import { readTruth } from '../accuracy/truthFile.ts';
import { CLIPS } from '../clips/clips.ts';
import { matchMoves } from './matchMoves.ts';
import { percentile } from './percentile.ts';
import { truthMotion } from './truthMotion.ts';

const STEP_S = 1 / 12;

/** Seconds as spans, or a dash. */
export const spansText = (spans: readonly (readonly [number, number])[]): string => (spans.length === 0 ? '–' : spans.map(([from, to]) => `${from.toFixed(2)}–${to.toFixed(2)}`).join(', '));

const bodyPauses = ({ pauses }: Moments): string => spansText(pauses.filter(({ of }) => of === 'body').map(({ fromS, toS }) => [fromS, toS]));

/** A row for each clip that is kept with the project: moves of limbs seen, made up, off; then of the body, and its pauses in the truth and as found. */
export async function clipMomentRows(): Promise<readonly string[][]> {
  const rows: string[][] = [];
  for (const { name, clip, truth } of clipFiles().there.filter((file) => CLIPS.some((one) => one.name === file.name && one.committed))) {
    const track = await cachedTrack(clip, name, 'full');
    const found = findMoments(trackToMotion(track, DEFAULT_SETTINGS, fitTake(track, 1)), 1);
    const there = findMoments(truthMotion(readTruth(truth)), 1);
    const of = (which: readonly string[]): string[] => {
      let [seen, all, madeUp, madeUpDeg] = [0, 0, 0, 0];
      const off: number[] = [];
      for (const limb of which) {
        const wanted = there.moves.filter((move) => move.of === limb);
        const matched = matchMoves(found.moves.filter((move) => move.of === limb), wanted);
        seen += matched.seen;
        all += wanted.length;
        madeUp += matched.madeUp;
        madeUpDeg = Math.max(madeUpDeg, matched.madeUpDeg);
        off.push(...matched.offS.map((s) => s / STEP_S));
      }
      return [`${seen} of ${all}`, madeUp === 0 ? '0' : `${madeUp} (${madeUpDeg.toFixed(0)}°)`, off.length === 0 ? '–' : percentile(off, 0.5).toFixed(1)];
    };
    rows.push([name, ...of(LIMBS), ...of(['body']), bodyPauses(there), bodyPauses(found)]);
  }
  return rows;
}
