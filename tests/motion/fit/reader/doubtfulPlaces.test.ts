import { expect, it } from 'vitest';
import { fitBody } from '../../../../src/motion/fit/fitBody.ts';
import { emptyReadings } from '../../../../src/motion/fit/reader/average.ts';
import { squat } from '../moves.ts';
import { film, FRONT, NO_FAULTS, times } from '../syntheticTake.ts';

it('a reader that doubts every place and knows nothing else leaves the body its lengths', () => {
  const { track } = film(times(2, 30), squat, FRONT, NO_FAULTS);
  const plain = fitBody(track).segmentLengthsM;
  const readings = emptyReadings(track.timesS.length);
  readings.shiftSigmaM.fill(0.06);
  readings.leanSigma.fill(2);
  readings.bendSigmaRad.fill(2);
  const doubted = fitBody(track, { readings }).segmentLengthsM;
  for (const name of ['spine', 'shoulderHalfWidth', 'thigh', 'shank'] as const) {
    expect(doubted[name], name).toBeGreaterThan(0.85 * plain[name]);
    expect(doubted[name], name).toBeLessThan(1.15 * plain[name]);
  }
});
