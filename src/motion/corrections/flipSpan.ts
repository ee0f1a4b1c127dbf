/**
 * Which span a person means who turns a limb over in depth at one moment: the bones lean one way from where they last lay in the plane
 * of the picture to where they next do, and the mistake, if it is one, begins and ends there.
 */
import type { FittedBody } from '../fit/fittedBody.ts';
import { BONE_COUNT, LIMB_NAMES } from '../fit/layout.ts';
import type { DepthFlip } from './corrections.ts';

/** A bone that shows this share of its length lies in the plane of the picture within 14°: there both ways are nearly the same. */
const IN_PLANE = 0.97;
/** Longest reach to either side; a limb that leans one way for longer is flipped piece by piece (chosen). */
const REACH_S = 1.5;

/**
 * @param frame index of the frame at which the limb is turned over
 * @returns container times; the frame alone where none of the bones meant leans
 */
export function flipSpan(
  body: Pick<FittedBody, 'timesS' | 'boneInPlane'>, frame: number, { limb, bone }: Pick<DepthFlip, 'limb' | 'bone'>,
): Pick<DepthFlip, 'fromS' | 'toS'> {
  const { timesS, boneInPlane } = body;
  const upper = LIMB_NAMES.indexOf(limb) * 2;
  const bones = bone === 'both' ? [upper, upper + 1] : [bone === 'upper' ? upper : upper + 1];
  const leans = (t: number): boolean => Math.abs(timesS[t]! - timesS[frame]!) <= REACH_S
    && bones.some((b) => boneInPlane[t * BONE_COUNT + b]! < IN_PLANE);
  let first = frame;
  let last = frame;
  if (leans(frame)) {
    while (first > 0 && leans(first - 1)) first--;
    while (last < timesS.length - 1 && leans(last + 1)) last++;
  }
  return { fromS: timesS[first]!, toS: timesS[last]! };
}
