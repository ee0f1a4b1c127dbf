/**
 * Published landmarks of a real person, who squats at five frames a second and stands upright between, as a track. They lie beside the
 * project and are never part of it.
 *
 * Source: tensorflow/tfjs-models (Apache-2.0), `pose-detection/test_data/pose_squats.full.json` and `pose_squats_3d.full.json`.
 */
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { LANDMARK_COUNT } from '../../../src/pose/landmarks.ts';
import { emptyTrack, type Track } from '../../../src/pose/track.ts';

const FOLDER = join(import.meta.dirname, '..', '..', '..', '..', 'shared', 'footage');
const PICTURE = join(FOLDER, 'pose_squats.full.json');
const WORLD = join(FOLDER, 'pose_squats_3d.full.json');
/** Whether they are there. */
export const PUBLISHED_THERE = existsSync(PICTURE) && existsSync(WORLD);

const WIDTH_PX = 720;
const HEIGHT_PX = 1280;
const RATE = 5;

export function publishedTrack(): Track {
  const picture = JSON.parse(readFileSync(PICTURE, 'utf8')) as number[][][];
  const world = JSON.parse(readFileSync(WORLD, 'utf8')) as number[][][];
  const track = emptyTrack('full', WIDTH_PX, HEIGHT_PX, Float64Array.from(picture, (_, t) => t / RATE));
  picture.forEach((frame, t) => frame.forEach(([x = 0, y = 0, z = 0], l) => {
    track.image.set([x / WIDTH_PX, y / HEIGHT_PX, z / WIDTH_PX], (t * LANDMARK_COUNT + l) * 3);
    track.world.set(world[t]?.[l] ?? [], (t * LANDMARK_COUNT + l) * 3);
  }));
  // The published numbers carry no visibility; the whole of her is in plain sight.
  track.visibility.fill(1);
  track.found.fill(1);
  return track;
}
