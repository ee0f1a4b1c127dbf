/**
 * Finds the track of a clip wherever there is one: in memory, in the browser's storage, or shipped beside a bundled clip.
 */
import { NudgebookError } from '../../errors.ts';
import type { TakeRef } from '../../book/document.ts';
import type { ModelSize, Track } from '../../pose/track.ts';
import { keepTrack, keptTrack } from '../state/keeping.ts';
import { BUNDLED_CLIPS, clipAddress, clipTrackAddress } from './bundledClips.ts';

const inMemory = new Map<string, Track>();

function keyOf(hash: string, model: ModelSize): string {
  return `${hash}/${model}`;
}

/** A track that is already at hand. */
export function trackAtHand(hash: string, model: ModelSize): Track | null {
  return inMemory.get(keyOf(hash, model)) ?? null;
}

/** Takes a finished track in: at hand from now on, and kept in storage. */
export async function addTrack(hash: string, track: Track): Promise<void> {
  inMemory.set(keyOf(hash, track.model), track);
  await keepTrack(hash, track);
}

/**
 * @returns the track, or `null` when this clip has not been measured with this model yet
 */
export async function findTrack(take: TakeRef, model: ModelSize): Promise<Track | null> {
  const { hash } = take;
  const found = trackAtHand(hash, model) ?? (await keptTrack(hash, model)) ?? (await shippedTrack(take, model));
  if (found !== null) inMemory.set(keyOf(hash, model), found);
  return found;
}

/** The track that ships for a bundled clip, if there is one of that very clip and model. */
async function shippedTrack(take: TakeRef, model: ModelSize): Promise<Track | null> {
  const clip = BUNDLED_CLIPS.find((c) => clipAddress(c.name) === take.address);
  const address = clip === undefined ? null : clipTrackAddress(clip.name);
  const shipped = address === null ? null : await fetchShipped(address);
  return shipped?.clipHash === take.hash && shipped.track.model === model ? shipped.track : null;
}

/** A track that ships with the program, and the content hash of the clip it was measured in. Made by `scripts/clips/demoTrack.ts`. */
interface ShippedTrack {
  readonly clipHash: string;
  readonly track: Track;
}

const fetched = new Map<string, Promise<ShippedTrack | null>>();

/** Fetches a shipped track once; `null` where the server has none. */
export function fetchShipped(address: string): Promise<ShippedTrack | null> {
  const known = fetched.get(address);
  if (known !== undefined) return known;
  const wanted = readShipped(address);
  fetched.set(address, wanted);
  return wanted;
}

async function readShipped(address: string): Promise<ShippedTrack | null> {
  const response = await fetch(address);
  // A server for single-page apps answers an unknown address with its front page.
  if (!response.ok || (response.headers.get('Content-Type') ?? '').startsWith('text/html')) return null;
  const { trackFromJson } = await import('../../pose/trackJson.ts');
  try {
    const { clipHash, track } = (await response.json()) as { readonly clipHash: string; readonly track: unknown };
    return { clipHash, track: trackFromJson(track) };
  } catch (cause) {
    throw new NudgebookError('bad-track', 'The measured track that ships with the demo does not open.', 'Open the clip and pose it again.', cause);
  }
}
