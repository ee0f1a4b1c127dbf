// Clips by which constants are set, made on demand. Each kind of action stands in both halves with another body, outfit, camera and tempo.
import { curl } from './actions/curl.ts';
import { jump } from './actions/jump.ts';
import { kneel } from './actions/kneel.ts';
import { lean } from './actions/lean.ts';
import { armAtLens } from './actions/lens.ts';
import { sitDown } from './actions/sit.ts';
import { slate } from './actions/slate.ts';
import { tableWork } from './actions/table-work.ts';
import { walkWith } from './actions/walk.ts';
import type { Action } from './actions/action.ts';
import type { Shot } from './camera.ts';
import type { HalfClip } from './clip.ts';
import { BAKER, DUSK, MOSS, PLAIN, RUST, type Outfit } from './figure/outfit.ts';
import { MARLA, ODILE, TORBEN, type Body } from './motion/body.ts';
import type { Room } from './room.ts';
import { BITS_PER_SECOND, BLUR, GREEN_ROOM, PALE_ROOM, roomFor, stool, table, upright, wide } from './studio.ts';

const of = (action: Action, body: Body, outfit: Outfit, shot: Shot, room: Room = roomFor(shot)): HalfClip =>
  ({ name: action.name, set: 'tuning', committed: false, action, body, outfit, shot, room, bitsPerSecond: BITS_PER_SECOND });

const SIT = upright(45, 1.2, { target: [-0.15, 0.9, 0] });
const JUMP = upright(20, 1.0, { target: [0, 1.08, 0], distanceM: 4.6 });
const LEAN = upright(65, 1.3, { target: [0.1, 0.82, 0] });
const LEAN_OUT = upright(38, 1.5, { target: [0.05, 0.95, 0], distanceM: 4.6 });
const KNEEL = upright(-45, 1.1, { target: [-0.1, 0.9, 0], distanceM: 4.5 });
const TABLE = upright(15, 1.35);
const WALK = wide(80, 1.0, { target: [0, 0.8, 0], distanceM: 4.9, fovVerticalDeg: 26 });
const CURL_SIDE = upright(78, 0.9, { target: [0, 0.86, 0], rollDeg: -5, distanceM: 4 });
const CURL_FRONT = upright(5, 1.5);

export const TUNING_CLIPS: readonly HalfClip[] = [
  of(sitDown('sit-marla', 'right', 1), MARLA, RUST, SIT, roomFor(SIT, PALE_ROOM, [stool(MARLA)])),
  of(armAtLens('lens-marla', 'right', 0, 1), MARLA, PLAIN, upright(0, 1.35)),
  of(slate('slate-marla', 'left', 0.95), MARLA, MOSS, upright(30, 1.25)),
  of(lean('lean-odile', { forwardDeg: 82, sideDeg: 0, turnDeg: 0, pace: 1.05, reach: 'down' }), ODILE, MOSS, LEAN, roomFor(LEAN, GREEN_ROOM)),
  of(kneel('kneel-torben', 'right', 1), TORBEN, DUSK, KNEEL, roomFor(KNEEL, PALE_ROOM)),
  of(walkWith('walk-odile', 'From standing, five short steps across the frame, to standing.', {
    startS: 0.3, stepS: 0.5, doubleS: 0.11, stepM: 0.46, steps: 5, firstX: -0.95,
    halfWidthM: 0.07, toeOutDeg: 8, strikePitchDeg: 15, toeOffPitchDeg: -44, clearM: 0.045,
  }, 3.3), ODILE, RUST, WALK),
  of(tableWork('table-torben', 'right', 1), TORBEN, BAKER, TABLE, roomFor(TABLE, GREEN_ROOM, [table(TORBEN, 0.08)])),
  of(curl('curl-side-odile', ['right'], 1, 128), ODILE, PLAIN, CURL_SIDE),
  { ...of(jump('jump-torben', { crouchS: 0.5, pushS: 0.28, riseM: 0.24, forwardM: 0, armsDeg: 130 }), TORBEN, PLAIN, JUMP), blurSubFrames: BLUR },
  { ...of(curl('curl-front-torben', ['left', 'right'], 0.85, 120), TORBEN, RUST, CURL_FRONT, roomFor(CURL_FRONT, GREEN_ROOM)), blurSubFrames: BLUR },
  // Made later, for arms whose depth was taken for its opposite.
  of(lean('lean-torben', { forwardDeg: 54, sideDeg: -24, turnDeg: 16, pace: 0.9, reach: 'out' }), TORBEN, MOSS, LEAN_OUT),
  of(armAtLens('lens-odile', 'left', 18, 0.95), ODILE, DUSK, upright(18, 1.1), roomFor(upright(18, 1.1), GREEN_ROOM)),
];
