/** Marla, the puppet of the demo: 280 mm tall, runs a night bakery. Her shoulders sit in the chest block. Our own. */
import type { Armature, Joint, Range } from '../armature.ts';
import { humanBody, type HumanMeasures } from '../humanBody.ts';

/** Limits of a well-made figure of this build, degrees; ours. */
const HUMAN_LIMITS: Readonly<Record<string, Joint['limitsDeg']>> = {
  spine: { forward: [-30, 30], up: [-35, 35], right: [-60, 30] },
  chest: { forward: [-30, 30], up: [-35, 35], right: [-50, 30] },
  neck: { forward: [-35, 35], up: [-50, 50], right: [-50, 45] },
  head: { forward: [-35, 35], up: [-60, 60], right: [-50, 45] },
  Elbow: { axis: [-3, 150] },
  Knee: { axis: [-3, 150] },
  Ankle: { forward: [-35, 35], up: [-45, 45], right: [-60, 45] },
};

/** The body with those limits. */
export function withHumanLimits({ joints, bones }: Pick<Armature, 'joints' | 'bones'>): Pick<Armature, 'joints' | 'bones'> {
  return {
    bones,
    joints: joints.map((joint) => {
      const limitsDeg = HUMAN_LIMITS[joint.name] ?? HUMAN_LIMITS[joint.name.replace(/^(left|right)/, '')];
      return limitsDeg === undefined ? joint : { ...joint, limitsDeg };
    }),
  };
}

/** One and the same range to either side. */
export function plusMinus(deg: number): Range {
  return [-deg, deg];
}

const MEASURES: HumanMeasures = {
  pelvis: 22, abdomen: 32, chest: 28, neck: 12, head: 45, shoulderHalf: 27, upperArm: 45, forearm: 42, hand: 26,
  hipHalf: 14, thigh: 62, shank: 65, foot: 32, ankleHeight: 14,
};

export const MARLA: Armature = {
  format: 'nudgebook-armature', version: 2, name: 'Marla',
  notes: 'Night baker. Ball and hinge joints of steel, tie-down holes in both soles.',
  totalMassG: 320,
  ...withHumanLimits(humanBody(MEASURES, false)),
};
