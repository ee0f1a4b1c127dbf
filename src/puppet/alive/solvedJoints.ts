/** Joints whose pose is solved from where something is held: what is put on top of theirs is taken back by the solving. */
import type { CompleteArmature, CompleteDrive } from '../complete.ts';
import { feetOf } from '../feet.ts';
import { limbOf } from '../limb.ts';
import type { PuppetSettings } from '../puppetSettings.ts';

/**
 * `[N·P]` 1 where a joint is one of a limb that is pinned to the set (also while it goes there and comes away), or of a leg whose foot is planted.
 *
 * @param timesS `[N]` moments of the take at the steps
 */
export function solvedJoints(armature: CompleteArmature, drives: readonly CompleteDrive[], { pins, plantFeet }: Pick<PuppetSettings, 'pins' | 'plantFeet'>, timesS: Float64Array): Uint8Array {
  const width = armature.joints.length;
  const count = timesS.length;
  const out = new Uint8Array(count * width);
  const mark = (bone: number, from: number, to: number): void => {
    for (const p of limbOf(armature, bone).all) for (let s = Math.max(0, from); s <= Math.min(count - 1, to); s++) out[s * width + p] = 1;
  };
  // between two stands a leg is solved as well
  if (plantFeet) for (const { bone, side } of feetOf(armature, drives)) if (side !== null) mark(bone, 0, count - 1);
  for (const pin of pins) {
    const bone = armature.bones.findIndex(({ name }) => name === pin.bone);
    const from = timesS.findIndex((t) => t >= pin.fromS && t <= pin.toS);
    if (bone < 0 || from < 0) continue;
    let to = from;
    while (to + 1 < count && timesS[to + 1]! <= pin.toS) to++;
    mark(bone, from - Math.floor(pin.easeSteps), to + Math.floor(pin.easeSteps));
  }
  return out;
}
