/**
 * What an exported file says of the take it was made from: plain facts, no more than a person needs to find the clip again.
 */
import type { ModelSize } from '../pose/track.ts';

export interface ExportTake {
  /** File name as the person knows it. */
  readonly name: string;
  /** Content hash of the clip, hex. */
  readonly hash: string;
  readonly durationS: number;
  readonly frames: number;
  /** Frames in which a person was found. */
  readonly framesPosed: number;
  /** Upright size, pixels. */
  readonly width: number;
  readonly height: number;
  readonly model: ModelSize;
  /** The frame rate in words, such as "29.97 constant" or "variable 21 to 30". */
  readonly rateText: string;
}
