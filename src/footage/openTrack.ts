/**
 * Opens the picture track of a clip. Used where the index is read and, once a worker, where frames are decoded.
 */
import type { Input, InputVideoTrack } from 'mediabunny';
import { failure } from './failures.ts';
import { type ClipSource, openInput } from './source.ts';

export interface OpenTrack {
  readonly input: Input;
  readonly track: InputVideoTrack;
  readonly close: () => void;
}

/**
 * Finds the picture track and makes sure that it can be decoded here. The caller closes it.
 *
 * @throws NudgebookError `not-a-video`, `truncated`, `no-video-track`, `codec-unsupported`
 */
export async function openTrack(source: ClipSource): Promise<OpenTrack> {
  const input = await openInput(source);
  try {
    return { input, track: await pictureTrack(input, source.name), close: () => input.dispose() };
  } catch (error) {
    input.dispose();
    throw error;
  }
}

async function pictureTrack(input: Input, name: string): Promise<InputVideoTrack> {
  await input.getFormat().catch((cause: unknown) => {
    throw failure.notAVideo(name, cause);
  });
  const tracks = await input.getTracks().catch((cause: unknown) => {
    throw failure.notAVideo(name, cause);
  });
  // The container is known by its first bytes, but the list of its tracks never came.
  if (tracks.length === 0) throw failure.noIndex(name);
  const track = await input.getPrimaryVideoTrack();
  if (!track) throw failure.noVideoTrack(name);
  if (!(await track.canDecode())) throw failure.codecUnsupported(name, await codecOf(track));
  return track;
}

/** RFC 6381 string of the track's codec, or what the container calls it. */
export async function codecOf(track: InputVideoTrack): Promise<string | null> {
  const codec = await track.getCodecParameterString();
  if (codec !== null) return codec;
  const internal = await track.getInternalCodecId();
  return typeof internal === 'string' ? internal.trim() : (await track.getCodec());
}
