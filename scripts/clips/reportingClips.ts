// Clips that are only looked at to report, made on demand: no constant may be chosen by them. See tuningClips.ts.
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
  ({ name: action.name, set: 'reporting', committed: false, action, body, outfit, shot, room, bitsPerSecond: BITS_PER_SECOND });

const SIT = upright(-35, 0.8, { target: [-0.15, 0.95, 0] });
const JUMP = upright(55, 1.4, { target: [0.15, 0.95, 0], distanceM: 4.7 });
const LEAN = upright(-40, 1.6, { target: [0.05, 0.92, 0] });
const KNEEL = upright(50, 1.75, { target: [-0.1, 0.86, 0], distanceM: 4.4, rollDeg: 6 });
const LENS = upright(-25, 1.2);
const TABLE = upright(-30, 1.5, { target: [0, 0.9, 0] });
const WALK = wide(-50, 0.5, { target: [0, 0.9, 0], distanceM: 5.2, fovVerticalDeg: 26 });
const CURL_SIDE = upright(62, 1.3);
const CURL_FRONT = upright(-10, 0.6, { target: [0, 0.86, 0] });

export const REPORTING_CLIPS: readonly HalfClip[] = [
  of(sitDown('sit-torben', 'left', 0.85), TORBEN, MOSS, SIT, roomFor(SIT, GREEN_ROOM, [stool(TORBEN)])),
  of(armAtLens('lens-torben', 'left', -25, 0.85), TORBEN, RUST, LENS, roomFor(LENS, PALE_ROOM)),
  of(slate('slate-torben', 'right', 0.8), TORBEN, DUSK, upright(15, 1.4)),
  of(kneel('kneel-marla', 'left', 0.95), MARLA, PLAIN, KNEEL),
  of(tableWork('table-odile', 'left', 0.9), ODILE, MOSS, TABLE, roomFor(TABLE, PALE_ROOM, [table(ODILE, 0.4)])),
  of(curl('curl-side-marla', ['right'], 0.75, 118), MARLA, RUST, CURL_SIDE, roomFor(CURL_SIDE, GREEN_ROOM)),
  of(jump('jump-odile', { crouchS: 0.6, pushS: 0.3, riseM: 0.15, forwardM: 0.35, armsDeg: 110 }), ODILE, RUST, JUMP),
  of(curl('curl-front-odile', ['right', 'left'], 1, 125), ODILE, BAKER, CURL_FRONT),
  { ...of(lean('lean-marla', { forwardDeg: 58, sideDeg: 26, turnDeg: -18, pace: 0.8, reach: 'out' }), MARLA, BAKER, LEAN, roomFor(LEAN, GREEN_ROOM)), blurSubFrames: BLUR },
  { ...of(walkWith('walk-torben', 'From standing, five long quick steps across the frame and towards the camera, to standing.', {
    startS: 0.3, stepS: 0.43, doubleS: 0.08, stepM: 0.58, steps: 5, firstX: -1.2,
    halfWidthM: 0.06, toeOutDeg: 5, strikePitchDeg: 19, toeOffPitchDeg: -50, clearM: 0.06,
  }, 2.9), TORBEN, DUSK, WALK, roomFor(WALK, PALE_ROOM)), blurSubFrames: BLUR },
];
