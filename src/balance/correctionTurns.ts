/** What the applied corrections of the balance put on top of the performance. */
import { pchip } from '../numeric/pchip.ts';
import { emptyAdded, type Added } from '../puppet/added.ts';
import type { Armature, Triple } from '../puppet/armature.ts';
import { completeArmature } from '../puppet/completeArmature.ts';
import type { PoiseCorrection } from './poiseSettings.ts';

/**
 * Between keys PCHIP, which never swings beyond them; before the first and behind the last key nothing, but where those
 * themselves are more than nothing the change holds there: it began before the plan, or goes on behind it. Joints that the puppet doesn't have are left out.
 *
 * @param atS `[N]` container times, never falling
 * @returns `null` where none is applied
 */
export function correctionTurns(corrections: readonly PoiseCorrection[], atS: Float64Array, armature: Armature): Added | null {
  const applied = corrections.filter((one) => one.applied);
  if (applied.length === 0) return null;
  const { joints } = completeArmature(armature);
  const width = joints.length;
  const added = emptyAdded(atS.length, width);
  for (const { turns, shift } of applied) {
    for (const { joint, keys } of turns) {
      const p = joints.findIndex(({ name }) => name === joint);
      if (p < 0) continue;
      addSeries(keys.map(({ timeS, turnDeg }) => ({ timeS, value: turnDeg })), atS, added.turnDeg, width * 3, p * 3);
    }
    addSeries(shift.map(({ timeS, shiftMm }) => ({ timeS, value: shiftMm })), atS, added.rootMm, 3, 0);
  }
  return added;
}

function addSeries(keys: readonly { readonly timeS: number; readonly value: Triple }[], atS: Float64Array, out: Float64Array, stride: number, offset: number): void {
  if (keys.length === 0) return;
  const x = Float64Array.from(keys, ({ timeS }) => timeS);
  for (let c = 0; c < 3; c++) {
    const y = Float64Array.from(keys, ({ value }) => value[c]!);
    if (!y.some((v) => v !== 0)) continue;
    pchip(x, y, atS).forEach((value, s) => {
      out[s * stride + offset + c]! += value;
    });
  }
}
