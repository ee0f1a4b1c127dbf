// What the clips made on demand share: how a camera is placed, rooms that face it, furniture that fits a body.
import { stoolFor } from './actions/sit.ts';
import type { Shot } from './camera.ts';
import type { Body } from './motion/body.ts';
import { sizeOf } from './motion/scale.ts';
import { WORKROOM, type Furniture, type Room } from './room.ts';

/** Motion blur is the mean of so many moments. */
export const BLUR = 4;
export const BITS_PER_SECOND = 850_000;

/** A whole body in a picture of 576 × 640. */
export const upright = (azimuthDeg: number, heightM: number, more: Partial<Shot> = {}): Shot => ({
  azimuthDeg, heightM, distanceM: 4.3, fovVerticalDeg: 33, target: [0, 0.98, 0], widthPx: 576, heightPx: 640, ...more,
});

/** A path through a picture of 800 × 512. */
export const wide = (azimuthDeg: number, heightM: number, more: Partial<Shot> = {}): Shot => ({
  azimuthDeg, heightM, distanceM: 5.6, fovVerticalDeg: 28, target: [0, 0.9, 0], widthPx: 800, heightPx: 512, ...more,
});

/** A room whose back wall stands nearly square to the camera. */
export const roomFor = (shot: Shot, colours: Pick<Room, 'wall' | 'floor'> = WORKROOM, furniture: readonly Furniture[] = []): Room => ({
  ...WORKROOM, ...colours, facingDeg: shot.azimuthDeg - 7, furniture,
});

/** Other walls and floors than the workroom's. */
export const GREEN_ROOM: Pick<Room, 'wall' | 'floor'> = { wall: [0.3, 0.38, 0.33], floor: [0.33, 0.27, 0.21] };
export const PALE_ROOM: Pick<Room, 'wall' | 'floor'> = { wall: [0.66, 0.66, 0.64], floor: [0.22, 0.22, 0.23] };

const WOOD = [0.34, 0.2, 0.1] as const;

/** The stool on which a body sits with level thighs. */
export function stool(body: Body): Furniture {
  const { topM, backM } = stoolFor(body);
  return { at: [-backM, 0, 0], depthM: 0.34, widthM: 0.38, topM, wood: WOOD };
}

/** A table before the body, closed in front down to `apronToM`. */
export const table = (body: Body, apronToM: number): Furniture => ({
  at: [0.58 * sizeOf(body), 0, 0], depthM: 0.6, widthM: 1.3, topM: 0.8 * sizeOf(body), apronToM, wood: WOOD,
});
