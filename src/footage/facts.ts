/**
 * What is known of a clip once its index has been read and before a frame has been decoded. Pure data.
 */

/** Verdict on the frame rate, from the container's own timestamps. Rates in frames a second. */
export type RateVerdict =
  | { readonly kind: 'constant'; readonly fps: number }
  | { readonly kind: 'variable'; readonly minFps: number; readonly medianFps: number; readonly maxFps: number }
  | { readonly kind: 'unknown' };

export interface ClipFacts {
  /** File name as the person knows it; for display only. */
  readonly name: string;
  readonly sizeBytes: number;
  /** Hex content hash (see `footage/contentHash.ts`); the name under which a track is kept. */
  readonly hash: string;
  /** Container as its MIME type without parameters, e.g. `video/mp4`. */
  readonly mimeType: string;
  /** Codec in the RFC 6381 form where known, else the short name. */
  readonly codec: string;
  /** Upright size in pixels, rotation applied. */
  readonly widthPx: number;
  readonly heightPx: number;
  /** Clockwise turn that the container orders, already applied to the size above. */
  readonly rotationDeg: 0 | 90 | 180 | 270;
  /** Presentation timestamp of every frame in seconds, strictly rising, none below 0; the frame's only clock. */
  readonly timesS: Float64Array;
  /**
   * Indices into `timesS` of frames that decode on their own, rising. A hint for splitting the work well; facts
   * that were stored and read again may lack it, and nothing but speed depends on it.
   */
  readonly keyFrames?: readonly number[];
  /** End of the last frame, seconds. */
  readonly durationS: number;
  readonly rate: RateVerdict;
  /** What a careful person should know: frames dropped before 0, fewer frames than the index promises… */
  readonly warnings: readonly string[];
}
