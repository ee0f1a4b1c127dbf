/** Joints whose sides may be mistaken for each other. */
import type { FoundSwap } from '../fit/fittedBody.ts';
import { JOINT_COUNT } from '../joints.ts';
import { JOINT_CLASS } from './errorClasses.ts';
import { UNSURE_SWAPPED } from './unsure.ts';

/**
 * Marks the limbs of doubtful swaps in place, `[T·J]`. Swaps that were repaired, or that a person spoke of, are no doubt.
 *
 * @param timesS T container times
 */
export function markSwaps(unsure: Uint8Array, timesS: Float64Array, swaps: readonly FoundSwap[]): void {
  for (const { fromS, toS, part, state } of swaps) {
    if (state !== 'doubtful') continue;
    for (let t = 0; t < timesS.length; t++) {
      if (timesS[t]! < fromS || timesS[t]! > toS) continue;
      JOINT_CLASS.forEach(({ limb }, joint) => {
        const inPart = limb >= 0 && (part === 'all' || (part === 'arms') === limb < 2);
        if (inPart) unsure[t * JOINT_COUNT + joint]! |= UNSURE_SWAPPED;
      });
    }
  }
}
