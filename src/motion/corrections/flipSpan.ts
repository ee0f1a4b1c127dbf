/**
 * Which span a person means who turns a limb over in depth at one moment: the bones lean one way from where they last lay in the plane
 * of the picture to where they next do, and the mistake, if it is one, begins and ends there.
 */
import type { FittedBody } from '../fit/fittedBody.ts';
import { BONE_COUNT, LIMB_NAMES, type LimbName } from '../fit/layout.ts';
import type { DepthFlip } from './corrections.ts';
import { frameAt } from './moments.ts';

/** A bone that shows this share of its length lies in the plane of the picture within 14°: there both ways are nearly the same. */
const IN_PLANE = 0.97;
/** Longest reach to either side; a limb that leans one way for longer is flipped piece by piece (chosen). */
const REACH_S = 1.5;

/**
 * @param timeS container time
 * @returns the flip that a person would make of it, for the limb's bone that leans most, or both where both lean
 */
export function proposeFlip(body: Pick<FittedBody, 'timesS' | 'boneInPlane'>, limb: LimbName, timeS: number): DepthFlip | null {
  const { timesS, boneInPlane } = body;
  const frame = frameAt(timesS, timeS);
  if (frame < 0) return null;
  const upper = LIMB_NAMES.indexOf(limb) * 2;
  const leans = (t: number, bone: number): boolean => boneInPlane[t * BONE_COUNT + bone]! < IN_PLANE;
  const both = [upper, upper + 1].filter((bone) => leans(frame, bone));
  const bones = both.length > 0 ? both : [upper, upper + 1];
  const inside = (t: number): boolean => Math.abs(timesS[t]! - timesS[frame]!) <= REACH_S && bones.some((bone) => leans(t, bone));
  let first = frame;
  while (first > 0 && inside(first - 1)) first--;
  let last = frame;
  while (last < timesS.length - 1 && inside(last + 1)) last++;
  const bone = bones.length === 2 ? 'both' : bones[0] === upper ? 'upper' : 'lower';
  return { limb, bone, fromS: timesS[first]!, toS: timesS[last]! };
}
