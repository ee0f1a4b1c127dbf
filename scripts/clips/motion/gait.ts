// A walk planned from its footsteps: each foot rolls over heel and ball on the floor without sliding,
// swings to its next place, and the pelvis travels between the feet.
import type { Body } from './body.ts';
import { minimumJerk, splineThrough, type Key } from './curve.ts';
import { plantedFoot } from './standing.ts';
import { footRotation, type FootChannels } from './pose.ts';
import { add, sub, turn, type Vec3 } from './rotation.ts';
import { signOf, type Side } from './skeleton.ts';

export interface Gait {
  readonly startS: number;
  /** Time from one heel strike to the next of the other foot. */
  readonly stepS: number;
  /** Both feet are down for this long around each change of feet. */
  readonly doubleS: number;
  readonly stepM: number;
  readonly steps: number;
  readonly firstX: number;
  readonly halfWidthM: number;
  readonly toeOutDeg: number;
  readonly strikePitchDeg: number;
  readonly toeOffPitchDeg: number;
  /** How high the ankle passes over its straight path in mid-swing. */
  readonly clearM: number;
}

/** One foot's stand at one place: from its strike to its toe-off. */
interface Stand {
  readonly x: number;
  readonly strikeS: number;
  readonly offS: number;
  readonly rollsIn: boolean;
  readonly rollsOff: boolean;
}

/** Every stand of one foot, in time order. The right foot steps first; the last step closes beside the other foot. */
export function standsOf(side: Side, g: Gait): readonly Stand[] {
  const mine = (k: number): boolean => (k % 2 === 1) === (side === 'right');
  const strike = (k: number): number => g.startS + k * g.stepS;
  const stands: Stand[] = [];
  let x = g.firstX;
  let strikeS = -Infinity;
  for (let k = 1; k <= g.steps; k++) {
    if (!mine(k)) continue;
    stands.push({ x, strikeS, offS: strike(k - 1) + (k === 1 ? 0 : g.doubleS), rollsIn: strikeS > 0 , rollsOff: true });
    strikeS = strike(k);
    x = g.firstX + g.stepM * Math.min(k, g.steps - 1);
  }
  stands.push({ x, strikeS, offS: Infinity, rollsIn: true, rollsOff: false });
  return stands;
}

/** The foot while it stands, pivoting on its heel, flat, then on its ball. */
function standing(body: Body, side: Side, g: Gait, stand: Stand, timeS: number, isLast: boolean, isFirst: boolean): FootChannels {
  const flat = plantedFoot(body, stand.x, signOf(side) * g.halfWidthM, g.toeOutDeg);
  const rollInS = 0.13;
  const rollOffS = isFirst ? 0.3 : 0.36;
  const strikePitch = isLast ? 4 : g.strikePitchDeg;
  const offPitch = isFirst ? g.toeOffPitchDeg * 0.7 : g.toeOffPitchDeg;
  const sinceStrike = timeS - stand.strikeS;
  const untilOff = stand.offS - timeS;
  if (stand.rollsIn && sinceStrike < rollInS) {
    const pitch = strikePitch * (1 - easeOut(sinceStrike / rollInS));
    return pivoted(side, flat, pitch, [-body.ankleToHeel, -body.ankleHeight, 0], 0);
  }
  if (stand.rollsOff && untilOff < rollOffS) {
    const pitch = offPitch * easeIn(1 - untilOff / rollOffS);
    return pivoted(side, flat, pitch, [body.ankleToBall, -body.ankleHeight, 0], -pitch);
  }
  return flat;
}

/** Starts at full speed, ends at rest; and the reverse. */
const easeOut = (u: number): number => 1 - (1 - u) ** 2;
const easeIn = (u: number): number => u ** 2.2;

/** A flat foot pitched about a point of its sole that stays where it is. */
export function pivoted(side: Side, flat: FootChannels, pitch: number, pivot: Vec3, toes: number): FootChannels {
  const level = footRotation(side, flat);
  const onFloor = add(flat.ankle, turn(level, pivot));
  const ankle = sub(onFloor, turn(footRotation(side, { pitch, yaw: flat.yaw }), pivot));
  return { ...flat, ankle, pitch, toes: Math.max(0, toes) };
}

/** Quintic through two values with given slopes and no curvature at either end, u in 0..1. */
export function glide(a: number, va: number, b: number, vb: number, u: number): number {
  const d = b - a;
  return a + va * u + u ** 3 * (10 * d - 6 * va - 4 * vb) + u ** 4 * (-15 * d + 8 * va + 7 * vb)
    + u ** 5 * (6 * d - 3 * va - 3 * vb);
}

/** The foot of one side at timeS. */
export function footAt(body: Body, side: Side, g: Gait, timeS: number): FootChannels {
  const stands = standsOf(side, g);
  let index = 0;
  while (index + 1 < stands.length && (stands[index + 1]?.strikeS ?? Infinity) <= timeS) index++;
  const now = stands[index];
  const next = stands[index + 1];
  if (now === undefined) throw new Error('a foot without a stand');
  const at = (stand: Stand, k: number, t: number): FootChannels =>
    standing(body, side, g, stand, t, k === stands.length - 1, k === 0);
  if (timeS < now.offS || next === undefined) return at(now, index, timeS);

  // In the air: leave with the speed of the roll-off, arrive with that of the roll-in.
  const span = next.strikeS - now.offS;
  const u = (timeS - now.offS) / span;
  const e = 0.002;
  const off = at(now, index, now.offS - 1e-6);
  const offBefore = at(now, index, now.offS - e);
  const strike = at(next, index + 1, next.strikeS);
  const strikeAfter = at(next, index + 1, next.strikeS + e);
  const axis = (i: 0 | 1 | 2): number => glide(
    off.ankle[i], ((off.ankle[i] - offBefore.ankle[i]) / e) * span,
    strike.ankle[i], ((strikeAfter.ankle[i] - strike.ankle[i]) / e) * span, u,
  );
  const lift = g.clearM * 16 * u * u * (1 - u) * (1 - u);
  const pitch = glide(
    off.pitch, ((off.pitch - offBefore.pitch) / e) * span * 0.5,
    strike.pitch, ((strikeAfter.pitch - strike.pitch) / e) * span * 0.3, minimumJerk(u * 0.75 + 0.25 * u * u),
  );
  return {
    ...off,
    ankle: [axis(0), axis(1) + lift, axis(2)],
    pitch,
    toes: off.toes * (1 - minimumJerk(u * 2)),
    onFloor: false,
  };
}

/** Middle of each double support as a moment, the first and last being the start and end of standing. */
export function changes(g: Gait): readonly number[] {
  return Array.from({ length: g.steps + 1 }, (_, k) => g.startS + k * g.stepS + (k === 0 ? 0 : g.doubleS / 2));
}

/** Forward position of the pelvis (m) over time: between the feet at every change of feet. */
export function pelvisForward(g: Gait): (timeS: number) => number {
  const when = changes(g);
  const points: Key[] = when.map((t, k) => {
    const ahead = Math.min(k, g.steps - 1);
    const behind = Math.max(0, Math.min(k - 1, g.steps - 1));
    // Slowing down at the end, the body is nearer to the front foot.
    const slowing = k === g.steps - 1 ? 0.04 : 0;
    return [t, g.firstX + g.stepM * ((ahead + behind) / 2 + slowing)];
  });
  const first: Key = [g.startS - 0.45, g.firstX];
  const leaving: Key = [g.startS, g.firstX + 0.04];
  const last: Key = [(when[g.steps] ?? 0) + 0.35, g.firstX + g.stepM * (g.steps - 1)];
  return splineThrough([first, leaving, ...points.slice(1, -1), last]);
}
