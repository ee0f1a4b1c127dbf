/**
 * Refuses a track that is not what its type promises, before any number is made of it: a track may come from a file.
 */
import { NudgebookError } from '../errors.ts';
import { LANDMARK_COUNT } from '../pose/landmarks.ts';
import { foundCount, type Track } from '../pose/track.ts';

/**
 * @throws NudgebookError `bad-track` for wrong lengths, times that do not rise, or numbers missing in a frame that is
 * said to hold a person; `no-person` when no frame holds one
 */
export function checkTrack(track: Track): void {
  const frames = track.timesS.length;
  const n = frames * LANDMARK_COUNT;
  const lengths: readonly (readonly [string, number, number])[] = [
    ['image', track.image.length, n * 3],
    ['world', track.world.length, n * 3],
    ['visibility', track.visibility.length, n],
    ['found', track.found.length, frames],
  ];
  for (const [name, is, shouldBe] of lengths) {
    if (is !== shouldBe) throw bad(`its ${name} holds ${is} numbers where ${frames} frames need ${shouldBe}`);
  }
  for (let t = 0; t < frames; t++) {
    const time = track.timesS[t]!;
    if (!Number.isFinite(time)) throw bad(`frame ${t + 1} has no time`);
    if (t > 0 && !(time > track.timesS[t - 1]!)) throw bad(`the time of frame ${t + 1} does not lie after the one before`);
    if (track.found[t] === 0) continue;
    let sum = 0;
    for (let k = t * LANDMARK_COUNT * 3; k < (t + 1) * LANDMARK_COUNT * 3; k++) sum += track.world[k]! + track.image[k]!;
    for (let k = t * LANDMARK_COUNT; k < (t + 1) * LANDMARK_COUNT; k++) sum += track.visibility[k]!;
    if (!Number.isFinite(sum)) throw bad(`frame ${t + 1} is marked as found, but some of its numbers are missing`);
  }
  if (foundCount(track) === 0) {
    throw new NudgebookError(
      'no-person',
      frames === 0 ? 'The track holds no frames.' : `No person was found in any of the ${frames} frames.`,
      'Use a clip in which the whole body of one person can be seen, well lit, and not too small.',
    );
  }
}

function bad(what: string): NudgebookError {
  return new NudgebookError('bad-track', `The track can’t be used: ${what}.`, 'Make the track anew from the clip.');
}
