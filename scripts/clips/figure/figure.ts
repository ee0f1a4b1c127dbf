// The whole figure as parts, for one body in one outfit.
import type { Body } from '../motion/body.ts';
import { SIDES } from '../motion/skeleton.ts';
import { armParts } from './arm.ts';
import { apronPart, shoePart, topPart, trousersPart, trunkOf } from './clothes.ts';
import { browsPart, capPart, hairPart, headPart } from './head.ts';
import type { Outfit } from './outfit.ts';
import type { Part } from './part.ts';
import { rigOf } from './rig.ts';

/** Everything to be meshed; eyeballs are added where the meshes are made. */
export function figureParts(body: Body, outfit: Outfit): readonly Part[] {
  const rig = rigOf(body);
  const trunk = trunkOf(rig);
  return [
    headPart(rig, outfit),
    browsPart(rig, outfit),
    hairPart(rig, outfit),
    ...(outfit.cap === undefined ? [] : [capPart(rig, outfit.cap)]),
    ...armParts(rig, outfit),
    topPart(rig, outfit, trunk),
    trousersPart(rig, outfit, trunk),
    ...(outfit.apron === undefined ? [] : [apronPart(rig, trunk, outfit.apron)]),
    ...SIDES.map((side) => shoePart(rig, outfit, side)),
  ];
}
