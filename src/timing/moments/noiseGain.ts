/**
 * What becomes of the noise of a smoothed track's speed: white tremble of single frames, behind the penalised smoother (third
 * differences, twiced, half power at the cut-off: H = 1 - (1 - g)², g = 1/(1 + 1.18·(f/fc)⁶), as in docs/smoothing.md), differentiated.
 */
import { TWICED_AT_CUTOFF, twicedGainOf } from '../../numeric/penalised.ts';
import type { Motion } from '../../motion/motion.ts';

/** Frequencies that are summed, Hz: above the highest nothing is left at any cut-off that can be set. */
const MOST_HZ = 30;
const STEP_HZ = 0.05;

/** The kinds of noise, by the power of their speed ahead of the smoother: white tremble of an angle, and an angle that walks at random. */
type Kind = 'white' | 'walk';

/** The smoother's gain at so many times its cut-off, where that lies far below the frame rate (third differences: the sixth power). */
const smootherGain = (ratio: number): number => twicedGainOf(TWICED_AT_CUTOFF * ratio ** 6);

/** Root of the ratio of the noise's power behind a further filter to that before it. `square(f)`: the filter's power gain. */
function gainOf(kind: Kind, cutoffHz: number, square: (hz: number) => number): number {
  let [before, after] = [0, 0];
  for (let hz = STEP_HZ; hz <= MOST_HZ; hz += STEP_HZ) {
    const power = ((kind === 'white' ? hz : 1) * smootherGain(hz / cutoffHz)) ** 2;
    before += power;
    after += power * square(hz);
  }
  return Math.sqrt(after / before);
}

/** Of a fourth difference over frames `spacingS` apart, seconds of the performer's time. */
export const fourthDifferenceGain = (cutoffHz: number, spacingS: number): number => gainOf('white', cutoffHz, fourthDifference(spacingS));

/** As above, of a random walk. */
export const walkDifferenceGain = (cutoffHz: number, spacingS: number): number => gainOf('walk', cutoffHz, fourthDifference(spacingS));

/** Of the mean of some frames `spacingS` apart, seconds of the performer's time; 1 of one frame alone. */
export const meanGain = (kind: Kind, cutoffHz: number, frames: number, spacingS: number): number => gainOf(kind, cutoffHz, (hz) => {
  const one = Math.sin(Math.PI * hz * spacingS);
  return Math.abs(one) < 1e-9 ? 1 : (Math.sin(Math.PI * hz * frames * spacingS) / (frames * one)) ** 2;
});

/** Size of the tremble by the size of its speed, seconds. */
export const trembleS = (cutoffHz: number): number => gainOf('white', cutoffHz, angle);

/** Size of the walk about a straight line within `lengthS` by the size of its speed, seconds: what is slower than that is the line's. */
export const wanderS = (cutoffHz: number, lengthS: number): number => gainOf('walk', cutoffHz, (hz) => (hz * lengthS < 1 ? 0 : angle(hz)));

const fourthDifference = (spacingS: number) => (hz: number): number => (2 - 2 * Math.cos(2 * Math.PI * hz * spacingS)) ** 4;
const angle = (hz: number): number => 1 / (2 * Math.PI * hz) ** 2;

/** Mean spacing of the frames, seconds of the performer's time; never 0. */
export function frameSpacingS({ timesS }: Pick<Motion, 'timesS'>, captureFactor: number): number {
  const last = timesS.length - 1;
  return Math.max(1e-9, timesS[last]! - timesS[0]!) / captureFactor / Math.max(1, last);
}

/** Cut-off that the noise of a motion went through, Hz of the performer's time; where nothing was smoothed, what its frames can carry. */
export function noiseCutoffHz(motion: Pick<Motion, 'timesS' | 'usedCutoffHz'>, captureFactor: number): number {
  return motion.usedCutoffHz ?? 0.5 / frameSpacingS(motion, captureFactor);
}
