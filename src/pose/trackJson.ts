/**
 * The track as plain JSON: what `track.json` holds.
 *
 * ```
 * {
 *   "format": "nudgebook track", "version": 1,
 *   "model": "full", "widthPx": 720, "heightPx": 1280,
 *   "timesS": [0, 0.2, …],                     // T presentation timestamps, seconds
 *   "frames": [null, {                         // null: nobody was found
 *     "image": [x, y, z, x, y, z, …],          // 99: fractions of the upright frame, y down
 *     "world": [x, y, z, …],                   // 99: metres, mid-hip, x right, y down, z away from the camera
 *     "visibility": [v, …]                     // 33: 0..1
 *   }, …]                                      // T entries
 * }
 * ```
 *
 * Landmarks in the order of `landmarks.ts`. Image and world are rounded to 1e-5 (a hundredth of a pixel; a hundredth of a
 * millimetre), visibility to 1e-3: finer than the model can mean. Timestamps are not rounded.
 */
import { NudgebookError } from '../errors.ts';
import { LANDMARK_COUNT } from './landmarks.ts';
import { emptyTrack, frameCount, MODEL_SIZES, type ModelSize, type Track } from './track.ts';

const FORMAT = 'nudgebook track';
const VERSION = 1;
const POSITION_STEP = 1e5;
const VISIBILITY_STEP = 1e3;

export interface TrackFrameJson {
  readonly image: readonly number[];
  readonly world: readonly number[];
  readonly visibility: readonly number[];
}

export interface TrackJson {
  readonly format: typeof FORMAT;
  readonly version: typeof VERSION;
  readonly model: ModelSize;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly timesS: readonly number[];
  readonly frames: readonly (TrackFrameJson | null)[];
}

/** Turns a track into plain data. */
export function trackToJson(track: Track): TrackJson {
  const { model, widthPx, heightPx, timesS, image, world, visibility, found } = track;
  const n = LANDMARK_COUNT;
  return {
    format: FORMAT,
    version: VERSION,
    model,
    widthPx,
    heightPx,
    timesS: Array.from(timesS),
    frames: Array.from({ length: frameCount(track) }, (_, f) => (found[f] === 1
      ? {
          image: rounded(image.subarray(f * n * 3, (f + 1) * n * 3), POSITION_STEP),
          world: rounded(world.subarray(f * n * 3, (f + 1) * n * 3), POSITION_STEP),
          visibility: rounded(visibility.subarray(f * n, (f + 1) * n), VISIBILITY_STEP),
        }
      : null)),
  };
}

function rounded(values: Float32Array, step: number): number[] {
  // "+ 0" turns -0 into 0, which JSON would lose anyway.
  return Array.from(values, (v) => Math.round(v * step) / step + 0);
}

/**
 * Reads a track from plain data and checks all of it.
 *
 * @param data what `JSON.parse` gave
 * @throws NudgebookError `bad-track`, naming the place
 */
export function trackFromJson(data: unknown): Track {
  const top = record(data, 'the file');
  if (top['format'] !== FORMAT) throw bad(`"format" is not "${FORMAT}"`);
  if (top['version'] !== VERSION) throw bad(`"version" is ${show(top['version'])}, and only ${VERSION} is known`);
  const model = MODEL_SIZES.find((size) => size === top['model']);
  if (!model) throw bad(`"model" is ${show(top['model'])}, not one of ${MODEL_SIZES.join(', ')}`);
  const widthPx = size(top['widthPx'], 'widthPx');
  const heightPx = size(top['heightPx'], 'heightPx');
  const timesS = Float64Array.from(numbers(top['timesS'], undefined, 'timesS'));
  timesS.forEach((t, i) => {
    const before = timesS[i - 1];
    if (t < 0 || (before !== undefined && t <= before)) throw bad(`"timesS" does not rise from 0 on at entry ${i}`);
  });
  const { frames } = top;
  if (!Array.isArray(frames)) throw bad('"frames" is not a list');
  if (frames.length !== timesS.length) throw bad(`"frames" has ${frames.length} entries, "timesS" has ${timesS.length}`);

  const track = emptyTrack(model, widthPx, heightPx, timesS);
  const n = LANDMARK_COUNT;
  frames.forEach((entry: unknown, f) => {
    if (entry === null) return;
    const where = `frames[${f}]`;
    const frame = record(entry, where);
    track.image.set(numbers(frame['image'], n * 3, `${where}.image`), f * n * 3);
    track.world.set(numbers(frame['world'], n * 3, `${where}.world`), f * n * 3);
    const visibility = numbers(frame['visibility'], n, `${where}.visibility`);
    if (visibility.some((v) => v < 0 || v > 1)) throw bad(`"${where}.visibility" leaves 0..1`);
    track.visibility.set(visibility, f * n);
    track.found[f] = 1;
  });
  return track;
}

function bad(what: string): NudgebookError {
  return new NudgebookError('bad-track', `This is not a track that can be read: ${what}.`, 'Open a track.json written by this version of Nudgebook, or run the pose again.');
}

function show(value: unknown): string {
  return value === undefined ? 'missing' : JSON.stringify(value);
}

function record(value: unknown, where: string): Record<string, unknown> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw bad(`${where} is not an object`);
  return value as Record<string, unknown>;
}

function size(value: unknown, where: string): number {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 1) throw bad(`"${where}" is ${show(value)}, not a whole number of pixels`);
  return value;
}

function numbers(value: unknown, length: number | undefined, where: string): number[] {
  if (!Array.isArray(value)) throw bad(`"${where}" is not a list`);
  if (length !== undefined && value.length !== length) throw bad(`"${where}" has ${value.length} numbers instead of ${length}`);
  const wrong = value.findIndex((v) => typeof v !== 'number' || !Number.isFinite(v));
  if (wrong >= 0) throw bad(`"${where}" has no number at entry ${wrong}`);
  return value as number[];
}
