// The list of clips: an action, a body, an outfit, a camera, a room. New clips are new rows.
import type { Action } from './actions/action.ts';
import { armRaise } from './actions/arm-raise.ts';
import { oneLegReach } from './actions/one-leg-reach.ts';
import { squat } from './actions/squat.ts';
import { walk } from './actions/walk.ts';
import type { Shot } from './camera.ts';
import { BAKER, MOSS, PLAIN, RUST, type Outfit } from './figure/outfit.ts';
import { MARLA, type Body } from './motion/body.ts';
import { BAKERY, WORKROOM, type Room } from './room.ts';

export const FPS = 30;

export interface Clip {
  readonly name: string;
  readonly action: Action;
  readonly body: Body;
  readonly outfit: Outfit;
  readonly shot: Shot;
  readonly room: Room;
  readonly bitsPerSecond: number;
}

const PORTRAIT: Shot = {
  azimuthDeg: 0, heightM: 1.3, distanceM: 4.3, fovVerticalDeg: 33, target: [0, 1.02, 0], widthPx: 640, heightPx: 720,
};

export const CLIPS: readonly Clip[] = [
  {
    name: 'one-leg-reach', action: oneLegReach, body: MARLA, outfit: BAKER, room: BAKERY, bitsPerSecond: 880_000,
    shot: { ...PORTRAIT, azimuthDeg: 35, heightM: 1.35, distanceM: 4.4, target: [0.05, 1.08, -0.12] },
  },
  { name: 'arm-raise', action: armRaise, body: MARLA, outfit: PLAIN, room: WORKROOM, shot: PORTRAIT, bitsPerSecond: 700_000 },
  {
    name: 'squat', action: squat, body: MARLA, outfit: RUST, room: WORKROOM, bitsPerSecond: 800_000,
    shot: { ...PORTRAIT, azimuthDeg: 35, heightM: 1.25, target: [0.05, 0.98, 0] },
  },
  {
    name: 'walk', action: walk, body: MARLA, outfit: MOSS, room: { ...WORKROOM, facingDeg: 54 }, bitsPerSecond: 1_000_000,
    shot: {
      azimuthDeg: 62, heightM: 1.3, distanceM: 5.4, fovVerticalDeg: 30, target: [0, 0.92, 0], widthPx: 800, heightPx: 600,
    },
  },
];

/** Number of frames of a clip. */
export const frameCount = (clip: Clip): number => Math.round(clip.action.durationS * FPS);
/** Time of a frame, s. */
export const frameTime = (frame: number): number => frame / FPS;

/** A clip by name; throws with the names there are. */
export function clipNamed(name: string): Clip {
  const clip = CLIPS.find((c) => c.name === name);
  if (clip === undefined) throw new Error(`no clip "${name}"; there are: ${CLIPS.map((c) => c.name).join(', ')}`);
  return clip;
}
