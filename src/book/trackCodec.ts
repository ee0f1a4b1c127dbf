/**
 * A track as JSON and back, bit for bit: the arrays as base64 of their little-endian bytes.
 *
 * Bytes are carried, never numbers: NaN has no JSON, decimal digits cost three times the room, and a missing frame
 * must come back as missing. A frame takes 33·7 float32, one float64 and one byte: 933 bytes, 1244 characters.
 */
import { NudgebookError } from '../errors.ts';
import { MODEL_SIZES, frameCount, type ModelSize, type Track } from '../pose/track.ts';
import { fromBase64, toBase64 } from './base64.ts';
import { checkTrack } from './checkTrack.ts';
import { refusal } from './refusal.ts';
import { fields, oneOf, wholeFrom } from './schemaParts.ts';
import { z } from './zod.ts';

export const TRACK_VERSION = 1;

/** A track as plain JSON. The five arrays are base64 of little-endian numbers, shapes as in {@link Track}. */
export interface EncodedTrack {
  readonly format: 'nudgebook-track';
  readonly version: 1;
  readonly model: ModelSize;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly frames: number;
  /** float64, seconds. */
  readonly timesS: string;
  /** uint8. */
  readonly found: string;
  /** float32. */
  readonly visibility: string;
  /** float32. */
  readonly image: string;
  /** float32, metres. */
  readonly world: string;
}

const encodedText = z.string({ error: 'a base64 text' });
const encodedSchema = fields({
  format: z.literal('nudgebook-track', { error: '"nudgebook-track"' }),
  version: z.literal(TRACK_VERSION, { error: String(TRACK_VERSION) }),
  model: oneOf(MODEL_SIZES),
  widthPx: wholeFrom(1, 100_000),
  heightPx: wholeFrom(1, 100_000),
  frames: wholeFrom(0, 100_000_000),
  timesS: encodedText,
  found: encodedText,
  visibility: encodedText,
  image: encodedText,
  world: encodedText,
});

const TIP = 'Open an earlier copy of the file, or analyse the take again.';

/**
 * @throws NudgebookError `bad-track` when it is none; nothing is written that would not open again
 */
export function encodeTrack(track: Track): EncodedTrack {
  checkTrack(track);
  return {
    format: 'nudgebook-track',
    version: TRACK_VERSION,
    model: track.model,
    widthPx: track.widthPx,
    heightPx: track.heightPx,
    frames: frameCount(track),
    timesS: toBase64(littleEndianBytes(track.timesS)),
    found: toBase64(littleEndianBytes(track.found)),
    visibility: toBase64(littleEndianBytes(track.visibility)),
    image: toBase64(littleEndianBytes(track.image)),
    world: toBase64(littleEndianBytes(track.world)),
  };
}

/**
 * @param value what {@link encodeTrack} gave, after JSON
 * @returns a track with arrays of its own
 * @throws NudgebookError `bad-track` naming the field
 */
export function decodeTrack(value: unknown): Track {
  const result = encodedSchema.safeParse(value);
  if (!result.success) throw refusal('bad-track', 'the track', TIP, result.error, value);
  const { model, widthPx, heightPx, frames } = result.data;
  const bytesOf = (name: 'timesS' | 'found' | 'visibility' | 'image' | 'world', bytesEach: number): ArrayBuffer => {
    const bytes = fromBase64(result.data[name]);
    if (bytes === null) throw new NudgebookError('bad-track', `The field ${name} of the track is not base64.`, TIP);
    if (bytes.length % bytesEach !== 0) {
      throw new NudgebookError('bad-track', `The field ${name} of the track has ${bytes.length} bytes; allowed are whole numbers of ${bytesEach} bytes each.`, TIP);
    }
    return hostBytes(bytes, bytesEach).buffer;
  };
  const track: Track = {
    model,
    widthPx,
    heightPx,
    timesS: new Float64Array(bytesOf('timesS', 8)),
    image: new Float32Array(bytesOf('image', 4)),
    world: new Float32Array(bytesOf('world', 4)),
    visibility: new Float32Array(bytesOf('visibility', 4)),
    found: new Uint8Array(bytesOf('found', 1)),
  };
  if (track.timesS.length !== frames) {
    throw new NudgebookError('bad-track', `The track has ${track.timesS.length} times for ${frames} frames.`, TIP);
  }
  checkTrack(track);
  return track;
}

const HOST_IS_LITTLE = new Uint8Array(new Uint16Array([1]).buffer)[0] === 1;

function littleEndianBytes(numbers: Float64Array | Float32Array | Uint8Array): Uint8Array {
  const bytes = new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength);
  return HOST_IS_LITTLE ? bytes : swapped(bytes, numbers.BYTES_PER_ELEMENT);
}

function hostBytes(bytes: Uint8Array<ArrayBuffer>, bytesEach: number): Uint8Array<ArrayBuffer> {
  return HOST_IS_LITTLE ? bytes : swapped(bytes, bytesEach);
}

/** A copy with the bytes of each number in the opposite order, for the rare host that is not little-endian. */
function swapped(bytes: Uint8Array, bytesEach: number): Uint8Array<ArrayBuffer> {
  const out = new Uint8Array(bytes.length);
  for (let i = 0; i < bytes.length; i += 1) {
    const within = i % bytesEach;
    out[i] = bytes[i - within + (bytesEach - 1 - within)] ?? 0;
  }
  return out;
}
