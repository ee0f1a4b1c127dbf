/** Pip, a stocky child of 190 mm with a heavy head on a short neck, and a jaw that a key opens. Our own. */
import type { Armature } from '../armature.ts';
import { humanBody } from '../humanBody.ts';
import { withHumanLimits } from './human.ts';

const body = withHumanLimits(humanBody({
  pelvis: 18, abdomen: 20, chest: 20, neck: 6, head: 58, shoulderHalf: 21, upperArm: 26, forearm: 23, hand: 17,
  hipHalf: 12, thigh: 28, shank: 28, foot: 25, ankleHeight: 12,
}, false));

export const PIP: Armature = {
  format: 'nudgebook-armature', version: 2, name: 'Pip', totalMassG: 210,
  bones: [...body.bones, { name: 'jaw', lengthMm: 16, along: [1, -0.3, 0], radiusMm: 4 }],
  joints: [
    ...body.joints,
    {
      name: 'jaw', parent: 'head', child: 'jaw', at: 0.25, offsetMm: [4, 0, 0], kind: 'screw', axis: [0, 0, -1],
      limitsDeg: { axis: [0, 25] }, screw: { pitchMm: 0.5, leverMm: 9 },
    },
  ],
};
