/**
 * What a hand can do with each kind of joint, where the armature doesn't say: common practice, no source. A tensioned ball
 * or hinge can be set to about a degree, wire springs back by as much again, a key can be set to an eighth of a turn.
 * Measure your own puppet: move a joint by the least you can, ten times in a row, and divide.
 */
import type { PuppetKind } from './armature.ts';

export const DEFAULT_SMALLEST_DEG: Readonly<Record<PuppetKind, number>> = { ball: 1, hinge: 1, swivel: 1, wire: 2, screw: 1 };
export const DEFAULT_SLACK_DEG: Readonly<Record<PuppetKind, number>> = { ball: 0.2, hinge: 0.2, swivel: 0.2, wire: 1, screw: 0 };
export const DEFAULT_SMALLEST_TURNS = 1 / 8;
