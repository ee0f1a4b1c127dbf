/**
 * What becomes of the noise of a smoothed track's speed: white tremble of single frames, behind the penalised smoother (third
 * differences, half power at the cut-off: |H|² = 1/(1 + (√2-1)(f/fc)⁶)², as in docs/smoothing.md), differentiated.
 */
import type { Motion } from '../../motion/motion.ts';

/** Frequencies that are summed, Hz: above the highest nothing is left at any cut-off that can be set. */
const MOST_HZ = 30;
const STEP_HZ = 0.05;

/** Root of the ratio of the noise's power behind a further filter to that before it. `square(f)`: the filter's power gain. */
function gainOf(cutoffHz: number, square: (hz: number) => number): number {
  let [before, after] = [0, 0];
  for (let hz = STEP_HZ; hz <= MOST_HZ; hz += STEP_HZ) {
    const power = (hz / (1 + (Math.SQRT2 - 1) * (hz / cutoffHz) ** 6)) ** 2;
    before += power;
    after += power * square(hz);
  }
  return Math.sqrt(after / before);
}

/** Of a fourth difference over frames `spacingS` apart, seconds of the performer's time. */
export function fourthDifferenceGain(cutoffHz: number, spacingS: number): number {
  return gainOf(cutoffHz, (hz) => (2 - 2 * Math.cos(2 * Math.PI * hz * spacingS)) ** 4);
}

/** Of the mean over a window `widthS` long, seconds of the performer's time. */
export function meanGain(cutoffHz: number, widthS: number): number {
  return gainOf(cutoffHz, (hz) => (Math.sin(Math.PI * hz * widthS) / (Math.PI * hz * widthS)) ** 2);
}

/** Size of the tremble by the size of its speed, seconds. */
export function trembleS(cutoffHz: number): number {
  return gainOf(cutoffHz, (hz) => 1 / (2 * Math.PI * hz) ** 2);
}

/** Cut-off that the noise of a motion went through, Hz of the performer's time; where nothing was smoothed, what its frames can carry. */
export function noiseCutoffHz({ timesS, usedCutoffHz }: Motion, captureFactor: number): number {
  const frames = timesS.length;
  return usedCutoffHz ?? (0.5 * (frames - 1) * captureFactor) / Math.max(1e-9, timesS[frames - 1]! - timesS[0]!);
}
