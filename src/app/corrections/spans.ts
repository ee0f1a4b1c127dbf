/** Which frames an act of correcting means when nobody has said from where to where. */
import { BONE_COUNT, LIMB_NAMES, type LimbName } from '../../motion/fit/layout.ts';
import type { FittedBody } from '../../motion/fit/fittedBody.ts';
import type { Span } from './edits.ts';

/** Frames `first..last` around `frame` in which something holds, as times; the frame alone where it does not hold there. */
export function runAround(timesS: ArrayLike<number>, frame: number, holds: (frame: number) => boolean): Span {
  let first = frame;
  let last = frame;
  if (holds(frame)) {
    while (first > 0 && holds(first - 1)) first -= 1;
    while (last < timesS.length - 1 && holds(last + 1)) last += 1;
  }
  return { fromS: timesS[first] ?? 0, toS: timesS[last] ?? 0 };
}

/**
 * A bone so long in the picture lies in its plane: there, and only there, leaning to and leaning away pass into each other.
 * The cosine of 14°, about what the fit itself can tell; by eye, no source.
 */
const IN_PLANE = 0.97;

/**
 * Span over which a limb's lean toward or away from the lens is one question with one answer: until a bone that is meant
 * passes through the plane of the picture.
 *
 * @param bones 0 the upper, 1 the lower bone of the limb
 */
export function depthSpan(body: FittedBody, frame: number, limb: LimbName, bones: readonly (0 | 1)[]): Span {
  const first = LIMB_NAMES.indexOf(limb) * 2;
  const leans = (t: number): boolean => bones.some((bone) => (body.boneInPlane[t * BONE_COUNT + first + bone] ?? 1) < IN_PLANE);
  return runAround(body.timesS, frame, leans);
}

/** Span in which a foot goes on standing, or being free, around a frame. */
export function contactSpan(body: FittedBody, frame: number, foot: 'left' | 'right'): Span & { readonly stands: boolean } {
  const side = foot === 'left' ? 0 : 1;
  const stands = body.contacts[frame * 2 + side] === 1;
  return { ...runAround(body.timesS, frame, (t) => (body.contacts[t * 2 + side] === 1) === stands), stands };
}
