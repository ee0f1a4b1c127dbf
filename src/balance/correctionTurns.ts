/** What the applied corrections of the balance put on top of the performance. */
import type { Added } from '../puppet/added.ts';
import type { Armature } from '../puppet/armature.ts';
import type { PoiseCorrection } from './poiseSettings.ts';

/**
 * @param atS `[N]` container times
 * @returns `null` where none is applied
 */
export function correctionTurns(corrections: readonly PoiseCorrection[], atS: Float64Array, armature: Armature): Added | null {
  void corrections;
  void atS;
  void armature;
  return null;
}
