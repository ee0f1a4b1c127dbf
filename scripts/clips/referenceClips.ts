// The four clips that are kept with the project. The fit's first constants were set on them, so they belong to the tuning half.
import { armRaise } from './actions/arm-raise.ts';
import { oneLegReach } from './actions/one-leg-reach.ts';
import { squat } from './actions/squat.ts';
import { walk } from './actions/walk.ts';
import type { Shot } from './camera.ts';
import type { HalfClip } from './clip.ts';
import { BAKER, MOSS, PLAIN, RUST } from './figure/outfit.ts';
import { MARLA } from './motion/body.ts';
import { BAKERY, WORKROOM } from './room.ts';

const PORTRAIT: Shot = {
  azimuthDeg: 0, heightM: 1.3, distanceM: 4.3, fovVerticalDeg: 33, target: [0, 1.02, 0], widthPx: 640, heightPx: 720,
};
const KEPT = { set: 'tuning', committed: true, body: MARLA } as const;

export const REFERENCE_CLIPS: readonly HalfClip[] = [
  {
    ...KEPT, name: 'one-leg-reach', action: oneLegReach, outfit: BAKER, room: BAKERY, bitsPerSecond: 880_000,
    shot: { ...PORTRAIT, azimuthDeg: 35, heightM: 1.35, distanceM: 4.4, target: [0.05, 1.08, -0.12] },
  },
  { ...KEPT, name: 'arm-raise', action: armRaise, outfit: PLAIN, room: WORKROOM, shot: PORTRAIT, bitsPerSecond: 700_000 },
  {
    ...KEPT, name: 'squat', action: squat, outfit: RUST, room: WORKROOM, bitsPerSecond: 800_000,
    shot: { ...PORTRAIT, azimuthDeg: 35, heightM: 1.25, target: [0.05, 0.98, 0] },
  },
  {
    ...KEPT, name: 'walk', action: walk, outfit: MOSS, room: { ...WORKROOM, facingDeg: 54 }, bitsPerSecond: 1_000_000,
    shot: {
      azimuthDeg: 62, heightM: 1.3, distanceM: 5.4, fovVerticalDeg: 30, target: [0, 0.92, 0], widthPx: 800, heightPx: 600,
    },
  },
];
