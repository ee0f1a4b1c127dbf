/**
 * Reads a clip's index: what is in it and when, without decoding a frame.
 */
import type { EncodedPacket, EncodedPacketSink } from 'mediabunny';
import { contentHash } from './contentHash.ts';
import type { ClipFacts } from './facts.ts';
import { failure, requireWebCodecs } from './failures.ts';
import { codecOf, openTrack } from './openTrack.ts';
import { rateVerdict } from './rateVerdict.ts';
import { type ClipSource, sourceSize } from './source.ts';
import { orderFrames, type PacketTime } from './frameOrder.ts';

export interface OpenOptions {
  readonly signal?: AbortSignal;
  /** Told how much of the file has been read, 0..1; only where its size is known. */
  readonly onProgress?: (fraction: number) => void;
}

/** A container whose own duration goes on this much longer than its pictures is worth a warning; sound often runs a little over. */
const ENDS_EARLY_S = 1;

/**
 * Opens a clip.
 *
 * @throws NudgebookError `no-webcodecs`, `file-missing`, `file-empty`, `not-a-video`, `no-video-track`, `truncated`,
 *   `codec-unsupported`, `no-frames`, `cancelled`
 */
export async function openClip(source: ClipSource, { signal, onProgress }: OpenOptions = {}): Promise<ClipFacts> {
  requireWebCodecs();
  const told = await sourceSize(source, signal);
  const open = await openTrack(source);
  // Disposing of the input makes every read under way fail, which is how reading is stopped.
  const stop = (): void => open.close();
  signal?.addEventListener('abort', stop);
  try {
    if (signal?.aborted) throw failure.cancelled();
    const { track, input } = open;
    const { EncodedPacketSink } = await import('mediabunny');
    const sink = new EncodedPacketSink(track);
    const packets: PacketTime[] = [];
    let last: EncodedPacket | undefined;
    for await (const packet of sink.packets(undefined, undefined, { metadataOnly: true })) {
      packets.push({ timeS: packet.timestamp, durationS: packet.duration, isKey: packet.type === 'key' });
      last = packet;
    }
    const promisedS = await track.getDurationFromMetadata();
    if (!last) throw (promisedS ?? 0) > 0 ? failure.noneWhole(source.name) : failure.noFrames(source.name);
    await requireWhole(sink, last, packets.length, source.name);

    const ordered = orderFrames(packets);
    if (ordered.timesS.length === 0) throw failure.noFrames(source.name);
    const warnings = [...ordered.warnings];
    if (promisedS !== null && promisedS - ordered.durationS > ENDS_EARLY_S) {
      warnings.push(`The file says it lasts ${promisedS.toFixed(1)} s, but its pictures end at ${ordered.durationS.toFixed(1)} s: the end may be missing.`);
    }

    const { hash, sizeBytes } = await contentHash(source, {
      signal,
      onBytes: (bytes) => { if (told) onProgress?.(Math.min(1, bytes / told)); },
    });
    return {
      name: source.name,
      sizeBytes,
      hash,
      mimeType: (await input.getFormat()).mimeType,
      codec: (await codecOf(track)) ?? 'unknown',
      widthPx: await track.getDisplayWidth(),
      heightPx: await track.getDisplayHeight(),
      rotationDeg: await track.getRotation(),
      timesS: ordered.timesS,
      keyFrames: ordered.keyFrames,
      durationS: ordered.durationS,
      rate: rateVerdict(ordered.timesS),
      warnings,
    };
  } catch (error) {
    throw signal?.aborted ? failure.cancelled() : error;
  } finally {
    signal?.removeEventListener('abort', stop);
    open.close();
  }
}

/**
 * An index in front of the pictures can promise frames that a file cut short no longer holds; a decoder
 * would just deliver fewer. So the last packet's bytes are asked for, and only if they are missing all are counted.
 */
async function requireWhole(sink: EncodedPacketSink, last: EncodedPacket, promised: number, name: string): Promise<void> {
  const found = await sink.getPacket(last.timestamp).catch(() => null);
  if (found && found.timestamp === last.timestamp && found.data.length === last.byteLength) return;
  let there = 0;
  try {
    for await (const packet of sink.packets()) there += packet.data.length > 0 ? 1 : 0;
  } catch {
    // The count up to where reading broke is the answer asked for.
  }
  if (there < promised) throw failure.cutShort(name, there, promised);
}
