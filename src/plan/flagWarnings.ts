/** What the flags of a plan say, in sentences: one for each kind of trouble. */
import { FLAG_CLIPPED, FLAG_FOOT_SHORT, FLAG_LOST, FLAG_PIN_SHORT, type PuppetJoint } from '../puppet/puppetPoses.ts';

const SAID: readonly (readonly [number, string])[] = [
  [FLAG_CLIPPED, 'Beyond the limits and cut off there:'],
  [FLAG_LOST, 'The joint’s kind can’t make the whole turn:'],
  [FLAG_FOOT_SHORT, 'The leg is too short for its standing foot:'],
  [FLAG_PIN_SHORT, 'The limb can’t reach its pin:'],
];

/**
 * @param flags `[N·P]` FLAG_* bits
 */
export function flagWarnings(joints: readonly PuppetJoint[], flags: Uint8Array): readonly string[] {
  const width = joints.length;
  return SAID.flatMap(([flag, words]) => {
    const told = joints.flatMap(({ name }, p) => {
      let steps = 0;
      for (let at = p; at < flags.length; at += width) if ((flags[at]! & flag) !== 0) steps += 1;
      return steps === 0 ? [] : [`${name} in ${steps} ${steps === 1 ? 'step' : 'steps'}`];
    });
    return told.length === 0 ? [] : [`${words} ${told.join(', ')}.`];
  });
}
