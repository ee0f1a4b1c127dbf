/**
 * Checks that numbers are a track, before they are kept and after they come back.
 *
 * Writer and reader use the same check, so that nothing is ever written that would not open again. It is another
 * check than the one before a motion is made: a take without a person is worth keeping, if only not to analyse it
 * again, and an empty frame must be empty, or damage in a file would pass as measured.
 */
import { NudgebookError } from '../errors.ts';
import { LANDMARK_COUNT } from '../pose/landmarks.ts';
import { frameCount, type Track } from '../pose/track.ts';

const TIP = 'Analyse the take again; its footage is needed for that.';

/**
 * @param track arrays of the right kinds, of any lengths and content
 * @throws NudgebookError `bad-track` when lengths disagree, times do not rise, or numbers are missing in a frame with a person
 */
export function checkTrack(track: Track): void {
  const frames = frameCount(track);
  const marks = frames * LANDMARK_COUNT;
  expectLength('image', track.image.length, marks * 3, frames);
  expectLength('world', track.world.length, marks * 3, frames);
  expectLength('visibility', track.visibility.length, marks, frames);
  expectLength('found', track.found.length, frames, frames);
  for (let f = 0; f < frames; f += 1) {
    const timeS = track.timesS[f] ?? Number.NaN;
    if (!Number.isFinite(timeS)) refuse(`the time of frame ${f} is ${timeS}`);
    if (f > 0 && timeS <= (track.timesS[f - 1] ?? Number.NaN)) refuse(`the time of frame ${f}, ${timeS} s, is not after the one before`);
    checkFrame(track, f);
  }
}

function checkFrame(track: Track, f: number): void {
  const found = track.found[f];
  if (found !== 0 && found !== 1) refuse(`found of frame ${f} is ${found}; allowed is 0 or 1`);
  const person = found === 1;
  for (let i = f * LANDMARK_COUNT; i < (f + 1) * LANDMARK_COUNT; i += 1) {
    const visibility = track.visibility[i] ?? Number.NaN;
    if (person ? !(visibility >= 0 && visibility <= 1) : visibility !== 0) {
      refuse(`visibility of landmark ${i % LANDMARK_COUNT} in frame ${f} is ${visibility}; allowed is ${person ? '0 to 1' : '0, for nobody was found there'}`);
    }
  }
  for (let i = f * LANDMARK_COUNT * 3; i < (f + 1) * LANDMARK_COUNT * 3; i += 1) {
    if (Number.isFinite(track.image[i]) !== person || Number.isFinite(track.world[i]) !== person) {
      refuse(person ? `frame ${f} has a person but lacks a coordinate` : `frame ${f} has coordinates though nobody was found in it`);
    }
  }
}

function expectLength(name: string, got: number, wanted: number, frames: number): void {
  if (got !== wanted) refuse(`${name} has ${got} numbers, and ${frames} frames need ${wanted}`);
}

function refuse(why: string): never {
  throw new NudgebookError('bad-track', `The track is damaged: ${why}.`, TIP);
}
