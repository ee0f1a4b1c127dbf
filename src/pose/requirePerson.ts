/**
 * A clip without anybody in it is worth an error of its own; whether it is one is the caller's decision.
 */
import { NudgebookError } from '../errors.ts';
import { foundCount, frameCount, type Track } from './track.ts';

/**
 * @throws NudgebookError `no-person` when no frame of the track has a person
 */
export function requirePerson(track: Track): void {
  if (foundCount(track) > 0) return;
  const frames = frameCount(track);
  throw new NudgebookError(
    'no-person',
    `Nobody was found in any of the ${frames} frames.`,
    'The performer should be in the picture from head to foot, well lit and at least a third of its height tall. If they are, try the model "heavy".',
  );
}
