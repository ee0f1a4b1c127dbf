/**
 * What is ordered of every joint at every step (`roundMoves.ts`), in the units of the hand: degrees, turns of a key.
 */
import { angleOf, fromAxisAngle, readQuat, writeQuat } from '../numeric/quaternion.ts';
import { makeSignsContinuous } from '../numeric/quaternionSeries.ts';
import { unwrap } from '../numeric/unwrap.ts';
import { turnsFreely } from './armature.ts';
import type { CompleteArmature, CompleteJoint } from './complete.ts';
import { gridPhase, roundAxis, roundBall } from './roundMoves.ts';
import { openingOfTurns, turnsOfOpening } from './screw.ts';
import { angleAbout, DEG_PER_RAD, RAD_PER_DEG } from './turns.ts';
import { length, readVec3 } from '../numeric/vector3.ts';

/**
 * N steps, P joints. NaN where there is no pose. A move after a gap leads from the last pose before it, where the puppet stood still.
 * - `rotations[N·P·4]` ordered turns; `angleDeg[N·P]` angle about the axis, of balls and wires the size of the turn from rest.
 * - `incrementDeg[N·P]` what to move: signed about the axis, of balls and wires the size of the move. 0 at the first pose.
 * - `turnDeg[N·P·3]` the move as a rotation vector in the axes of the parent bone (forward, up, right).
 * - `keyTurns[N·P]` of screws the turns of the key; NaN for all other kinds.
 */
export interface Orders {
  readonly rotations: Float64Array;
  readonly angleDeg: Float64Array;
  readonly incrementDeg: Float64Array;
  readonly turnDeg: Float64Array;
  readonly keyTurns: Float64Array;
}

/**
 * @param rotations `[N·P·4]` exact turns
 * @param kept `[N·P]` 1 where a move is ordered even if it is soon taken back; `null`: nowhere
 */
export function orderMoves(armature: CompleteArmature, rotations: Float64Array, kept: Uint8Array | null = null): Orders {
  const width = armature.joints.length;
  const count = width === 0 ? 0 : rotations.length / (width * 4);
  const orders: Orders = {
    rotations: new Float64Array(rotations.length).fill(Number.NaN),
    angleDeg: new Float64Array(count * width).fill(Number.NaN),
    incrementDeg: new Float64Array(count * width).fill(Number.NaN),
    turnDeg: new Float64Array(count * width * 3).fill(Number.NaN),
    keyTurns: new Float64Array(count * width).fill(Number.NaN),
  };
  armature.joints.forEach((joint, p) => {
    const isKept = (s: number): boolean => kept !== null && kept[s * width + p] === 1;
    if (turnsFreely(joint.kind)) orderBall(joint, p, width, count, rotations, isKept, orders);
    else orderAxis(joint, p, width, count, rotations, isKept, orders);
  });
  makeSignsContinuous(orders.rotations, count, width);
  return orders;
}

function orderBall(joint: CompleteJoint, p: number, width: number, count: number, rotations: Float64Array, isKept: (step: number) => boolean, out: Orders): void {
  const { turnDeg, incrementDeg, angleDeg } = out;
  roundBall(
    rotations, { joint: p, width, count }, joint.smallestDeg * RAD_PER_DEG, joint.slackDeg * RAD_PER_DEG, gridPhase(p), out.rotations, turnDeg, isKept,
  );
  for (let s = 0; s < count; s++) {
    const at = s * width + p;
    if (Number.isNaN(turnDeg[at * 3]!)) continue;
    const move = readVec3(turnDeg, at);
    incrementDeg[at] = length(move) * DEG_PER_RAD;
    for (let c = at * 3; c < at * 3 + 3; c++) turnDeg[c]! *= DEG_PER_RAD;
    // it stands as before where nothing is ordered
    angleDeg[at] = incrementDeg[at] === 0 && s > 0 && !Number.isNaN(angleDeg[at - width]!)
      ? angleDeg[at - width]! : angleOf(readQuat(out.rotations, at)) * DEG_PER_RAD;
  }
}

function orderAxis(joint: CompleteJoint, p: number, width: number, count: number, rotations: Float64Array, isKept: (step: number) => boolean, out: Orders): void {
  const { screw } = joint;
  const angles = unwrap(Float64Array.from({ length: count }, (_, s) => {
    const at = s * width + p;
    return Number.isNaN(rotations[at * 4]!) ? Number.NaN : angleAbout(readQuat(rotations, at), joint.axis);
  }));
  const inHand = (deg: number): number => (screw === null ? deg : turnsOfOpening(screw, deg));
  const smallest = screw === null ? joint.smallestDeg : screw.smallestTurns;
  const slack = screw === null ? joint.slackDeg : (joint.slackDeg / joint.smallestDeg) * screw.smallestTurns;
  const limits = joint.limitsDeg.axis;
  const ordered = roundAxis(
    angles.map((rad) => inHand(rad * DEG_PER_RAD)), smallest, slack, gridPhase(p),
    limits === null ? undefined : [inHand(limits[0]), inHand(limits[1])], isKept,
  );
  let before = Number.NaN;
  ordered.forEach((value, s) => {
    if (Number.isNaN(value)) return;
    const at = s * width + p;
    const deg = screw === null ? value : openingOfTurns(screw, value);
    const wasDeg = Number.isNaN(before) ? deg : screw === null ? before : openingOfTurns(screw, before);
    writeQuat(out.rotations, at, fromAxisAngle(joint.axis, deg * RAD_PER_DEG));
    out.angleDeg[at] = deg + 0;
    out.incrementDeg[at] = deg - wasDeg + 0;
    for (let c = 0; c < 3; c++) out.turnDeg[at * 3 + c] = joint.axis[c]! * (deg - wasDeg) + 0;
    if (screw !== null) out.keyTurns[at] = Number.isNaN(before) ? 0 : value - before;
    before = value;
  });
}
