/** Which frames an act of correcting means when nobody has said from where to where. */
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

/** Span in which a foot goes on standing, or being free, around a frame. */
export function contactSpan(body: FittedBody, frame: number, foot: 'left' | 'right'): Span & { readonly stands: boolean } {
  const side = foot === 'left' ? 0 : 1;
  const stands = body.contacts[frame * 2 + side] === 1;
  return { ...runAround(body.timesS, frame, (t) => (body.contacts[t * 2 + side] === 1) === stands), stands };
}
