/** One camera of the take: its track, its lens and where it stands against the first. */
import type { Track } from '../../pose/track.ts';
import type { Readings } from './reader/readTrack.ts';

/**
 * - `rotation[9]` row-major and `translationM[3]`: a point in this camera = rotation · (point in the first camera) + translation.
 * All tracks share the first one's times.
 */
export interface View {
  readonly track: Track;
  readonly focalPx: number;
  readonly rotation: Float64Array;
  readonly translationM: Float64Array;
  /** What the reader made of the track; `null`: the model's habits are taken off by the tables instead. */
  readonly readings: Readings | null;
}
