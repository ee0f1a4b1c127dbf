// What a clip is, and the times of its frames.
import type { Action } from './actions/action.ts';
import type { Shot } from './camera.ts';
import type { Outfit } from './figure/outfit.ts';
import type { Body } from './motion/body.ts';
import type { Room } from './room.ts';

export const FPS = 30;
/** Of a blurred clip: the shutter is open for half the frame. */
export const SHUTTER_DEG = 180;

/** Clips by which constants are set, and clips that are only looked at to report. */
export const CLIP_SETS = ['tuning', 'reporting'] as const;
export type ClipSet = (typeof CLIP_SETS)[number];
/** Poses to learn from, in neither half. */
export const PRACTICE = 'practice';

export interface Clip {
  readonly name: string;
  readonly set: ClipSet | typeof PRACTICE;
  /** Kept with the project in reference-clips/; the others are made on demand. */
  readonly committed: boolean;
  readonly action: Action;
  readonly body: Body;
  readonly outfit: Outfit;
  readonly shot: Shot;
  readonly room: Room;
  readonly bitsPerSecond: number;
  /** Motion blur from so many moments while the shutter is open; absent: every frame is one moment. */
  readonly blurSubFrames?: number;
  /** Drawn in a third of the time: coarser meshes, no shadows, hard edges. For pictures that only the pose model looks at. */
  readonly sketchy?: boolean;
}

/** A clip of one of the halves. */
export type HalfClip = Clip & { readonly set: ClipSet };

/** Number of frames of a clip. */
export const frameCount = (clip: Clip): number => Math.round(clip.action.durationS * FPS);
/** Time of a frame, s; of a blurred one the middle of the shutter. */
export const frameTime = (frame: number): number => frame / FPS;

/** The moments of which a frame is made, s, even and centred on the frame's time. */
export function shutterTimes(clip: Clip, frame: number): readonly number[] {
  const n = clip.blurSubFrames ?? 1;
  const openS = SHUTTER_DEG / 360 / FPS;
  return Array.from({ length: n }, (_, k) => frameTime(frame) + (n === 1 ? 0 : ((k + 0.5) / n - 0.5) * openS));
}
