/**
 * A track as structured clone keeps it: typed arrays with memory of their own.
 */
import { NudgebookError } from '../errors.ts';
import type { ModelSize, Track } from '../pose/track.ts';
import { checkTrack } from './checkTrack.ts';

const ARRAY_FIELDS = { timesS: 'Float64Array', image: 'Float32Array', world: 'Float32Array', visibility: 'Float32Array', found: 'Uint8Array' } as const;

/**
 * The same track over buffers that hold nothing else. Structured clone copies the whole buffer under a view,
 * and refuses a shared one.
 */
export function ownCopy(track: Track): Track {
  return {
    model: track.model,
    widthPx: track.widthPx,
    heightPx: track.heightPx,
    timesS: new Float64Array(track.timesS),
    image: new Float32Array(track.image),
    world: new Float32Array(track.world),
    visibility: new Float32Array(track.visibility),
    found: new Uint8Array(track.found),
  };
}

/**
 * Checks what came out of the database.
 *
 * @param model the model it was kept under
 * @throws NudgebookError `bad-track`
 */
export function trackFromStored(value: unknown, model: ModelSize): Track {
  if (typeof value !== 'object' || value === null) refuse('it is no record');
  const record = value as Readonly<Record<string, unknown>>;
  for (const [name, kind] of Object.entries(ARRAY_FIELDS)) {
    if (Object.prototype.toString.call(record[name]) !== `[object ${kind}]`) refuse(`${name} is no ${kind}`);
  }
  if (record['model'] !== model) refuse(`its model is ${String(record['model'])} instead of ${model}`);
  for (const name of ['widthPx', 'heightPx']) {
    const size = record[name];
    if (typeof size !== 'number' || !Number.isInteger(size) || size < 1) refuse(`${name} is ${String(size)}`);
  }
  // Each field's kind has just been checked.
  const track = record as unknown as Track;
  checkTrack(track);
  return track;
}

function refuse(why: string): never {
  throw new NudgebookError('bad-track', `The kept track is damaged: ${why}.`, 'Analyse the take again; its footage is needed for that.');
}
