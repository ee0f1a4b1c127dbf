// Poses without a story, one after the other: every frame is another one, so that a short clip shows many.
import type { Body } from '../motion/body.ts';
import { seeded } from '../motion/curve.ts';
import { poseFrom, type ArmChannels, type Channels, type FootChannels } from '../motion/pose.ts';
import { withinReach } from '../motion/reach.ts';
import { aboutY, inverse, mix, sub, turn } from '../motion/rotation.ts';
import { sizeOf } from '../motion/scale.ts';
import { placeJoints, signOf, SIDES, type Side } from '../motion/skeleton.ts';
import { HANGING, standing } from '../motion/standing.ts';
import type { Action } from './action.ts';

/** Poses a clip. */
const POSES = 50;
const RATE = 30;
/** An arm that runs into the trunk is thrown again, at most so often; then it hangs. */
const THROWS = 12;
/** Half depth and half width of the trunk that no wrist or forearm may enter, m, at girth 1. */
const TRUNK_M = [0.14, 0.19] as const;

/**
 * What a clip is rich in: everything alike; arms that curl, hang and reach on legs that stand straight or under a deep bow; arms behind
 * the body; forearms that come forward from upper arms that hang, as most work with the hands is done; arms that point about at the lens.
 */
export type Emphasis = 'all' | 'arms' | 'behind' | 'forearms' | 'lens';

/** Numbers that belong to a seed, in the order asked. */
interface Dice {
  /** Even between two values. */
  readonly between: (from: number, to: number) => number;
  /** Bell-shaped about 0, within three sigmas. */
  readonly about: (sigma: number) => number;
  /** One of several, each with its share; shares add up to 1. */
  readonly oneOf: <T>(shares: readonly (readonly [number, T])[]) => T;
}

function diceOf(seed: string): Dice {
  let k = 0;
  const next = (): number => seeded(seed, k++);
  return {
    between: (from, to) => from + (to - from) * next(),
    about: (sigma) => (next() + next() + next() - 1.5) * 2 * sigma,
    oneOf: (shares) => {
      let left = next();
      for (const [share, value] of shares) {
        left -= share;
        if (left < 0) return value;
      }
      return shares.at(-1)![1];
    },
  };
}

/** Kinds of arms with their shares: elevation, plane, elbow, twist, degrees. */
const ARMS: Readonly<Record<Emphasis, (between: Dice['between']) => readonly (readonly [number, () => readonly [number, number, number, number]])[]>> = {
  all: (between) => [
    [0.22, () => [between(4, 20), between(-10, 70), between(4, 26), between(-5, 25)]],
    [0.28, () => [between(4, 45), between(0, 100), between(26, 142), between(-25, 55)]],
    [0.25, () => [between(40, 155), between(0, 125), between(4, 40), between(-20, 40)]],
    [0.25, () => [between(10, 150), between(0, 125), between(10, 140), between(-40, 60)]],
  ],
  arms: (between) => [
    [0.25, () => [between(3, 18), between(-10, 70), between(3, 18), between(-5, 25)]],
    [0.45, () => [between(4, 30), between(0, 100), between(20, 142), between(-15, 45)]],
    [0.3, () => [between(45, 110), between(30, 120), between(4, 110), between(-25, 40)]],
  ],
  behind: (between) => [
    [0.45, () => [between(8, 75), between(-115, -55), between(3, 40), between(-10, 30)]],
    [0.2, () => [between(8, 50), between(-110, -30), between(30, 110), between(-10, 60)]],
    [0.35, () => [between(4, 120), between(-20, 110), between(4, 120), between(-20, 40)]],
  ],
  forearms: (between) => [
    [0.65, () => [between(3, 16), between(-10, 90), between(12, 140), between(-15, 35)]],
    [0.15, () => [between(3, 16), between(-10, 70), between(4, 20), between(-5, 25)]],
    [0.2, () => [between(16, 60), between(20, 115), between(10, 130), between(-20, 45)]],
  ],
  lens: (between) => [
    [0.6, () => [between(55, 115), between(60, 120), between(4, 75), between(-25, 40)]],
    [0.2, () => [between(25, 65), between(40, 110), between(20, 130), between(-25, 45)]],
    [0.2, () => [between(4, 18), between(-10, 70), between(4, 40), between(-5, 25)]],
  ],
};

/** How far the performer turns away to either side, degrees: where the arms are in question that come at the lens, not far. */
const TURNED_DEG: Readonly<Record<Emphasis, number>> = { all: 45, arms: 45, behind: 45, forearms: 35, lens: 22 };

/** Legs and trunk with their shares. */
type Stance = 'stand' | 'crouch' | 'lift' | 'sit' | 'kneel' | 'bow' | 'deep';
type Shares = readonly (readonly [number, Stance])[];
const ALIKE: Shares = [[0.42, 'stand'], [0.22, 'crouch'], [0.16, 'lift'], [0.12, 'sit'], [0.08, 'bow']];
const STANCES: Readonly<Record<Emphasis, Shares>> = {
  all: ALIKE,
  arms: [[0.75, 'stand'], [0.25, 'deep']],
  behind: ALIKE,
  forearms: [[0.6, 'stand'], [0.15, 'kneel'], [0.1, 'sit'], [0.15, 'lift']],
  lens: [[0.6, 'stand'], [0.15, 'kneel'], [0.1, 'crouch'], [0.15, 'deep']],
};

function arm(dice: Dice, emphasis: Emphasis): ArmChannels {
  const { between, about } = dice;
  const [elevation, plane, elbow, twist] = dice.oneOf(ARMS[emphasis](between))();
  return { elevation, plane, elbow, twist, wristFlex: about(18), wristThumb: about(8), wristTwist: between(-10, 95) };
}

/** Whether hand or forearm of an arm run into the trunk. */
function clashes(body: Body, c: Channels, side: Side): boolean {
  const placed = placeJoints(body, poseFrom(body, c));
  const hips = mix(placed.leftHip.position, placed.rightHip.position, 0.5);
  const seen = (share: number): readonly number[] =>
    turn(inverse(placed.chest.rotation), sub(mix(placed[`${side}Elbow`].position, placed[`${side}Wrist`].position, share), hips));
  const [deep, wide] = TRUNK_M;
  return [0.4, 0.7, 1, 1.25].some((share) => {
    const [x, y, z] = seen(share);
    return y! > -0.15 && y! < body.headHeight - body.hipHeight + 0.2 && Math.hypot(x! / deep, z! / wide) < body.trunkGirth;
  });
}

function foot(body: Body, side: Side, dice: Dice, forwardM: number, outM: number, upM: number, pitch: number): FootChannels {
  return {
    ankle: [forwardM, body.ankleHeight + upM, signOf(side) * (0.1 + outM)],
    pitch, yaw: dice.between(0, 22), kneeOut: dice.between(-4, 14), toes: 0, onFloor: upM === 0,
  };
}

/** Legs and trunk. */
function stance(body: Body, dice: Dice, emphasis: Emphasis): Channels {
  const { between, about } = dice;
  const base = standing(body);
  const size = sizeOf(body);
  const flat = (side: Side, forwardM: number): FootChannels => foot(body, side, dice, forwardM * size, between(-0.03, 0.14) * size, 0, 0);
  const kind = dice.oneOf(STANCES[emphasis]);
  const upright = {
    ...base, trunkPitch: about(7), trunkLean: about(6), trunkYaw: about(12), pelvisPitch: about(5), pelvisLean: about(3), pelvisYaw: about(5),
    headPitch: about(14), headLean: about(8), headYaw: about(20),
  };
  const apart = between(-0.3, 0.3);
  const feet = { left: flat('left', apart), right: flat('right', kind === 'crouch' || kind === 'stand' ? -apart * between(0, 1) : apart * 0.2) };
  const sunk = (byM: number, backM: number): Channels['root'] => [base.root[0] - backM * size, base.root[1] - byM * size, base.root[2] + about(0.03)];
  switch (kind) {
    case 'stand': return { ...upright, feet, root: sunk(between(0, 1) < 0.6 ? 0 : between(0, 0.06), 0) };
    case 'crouch': {
      const down = between(0.04, 0.5);
      return { ...upright, feet, root: sunk(down, between(0.1, 0.6) * down), trunkPitch: down * between(10, 80), pelvisPitch: down * between(0, 70) };
    }
    case 'lift': {
      const side = SIDES[between(0, 1) < 0.5 ? 0 : 1]!;
      const other = side === 'left' ? 'right' : 'left';
      const up = between(0.05, 0.6) * size;
      return {
        ...upright, root: [base.root[0], base.root[1] - 0.004, signOf(other) * 0.07],
        feet: { [side]: foot(body, side, dice, between(-0.3, 0.4) * size, between(-0.05, 0.15), up, between(-40, 15)), [other]: flat(other, 0) } as Channels['feet'],
      };
    }
    case 'sit': return {
      ...upright, feet: { left: flat('left', between(-0.1, 0.12)), right: flat('right', between(-0.1, 0.12)) },
      root: sunk(between(0.34, 0.46), between(0.33, 0.46)), pelvisPitch: between(-15, 20), trunkPitch: between(0, 25),
    };
    case 'kneel': return kneeling(body, dice, upright);
    case 'deep': return { ...upright, feet, root: sunk(0.01, between(0.05, 0.25)), pelvisPitch: between(5, 60), trunkPitch: between(5, 40) };
    case 'bow': return { ...upright, feet, root: sunk(0.02, between(0.05, 0.2)), pelvisPitch: between(10, 60), trunkPitch: between(5, 35) };
  }
}

/** On one knee, or half way down to it. */
function kneeling(body: Body, dice: Dice, upright: Channels): Channels {
  const { between } = dice;
  const size = sizeOf(body);
  const knee = SIDES[between(0, 1) < 0.5 ? 0 : 1]!;
  const front = knee === 'left' ? 'right' : 'left';
  const down = between(0, 1) < 0.7 ? 1 : between(0.3, 1);
  const thigh = body.hipHeight - body.kneeHeight;
  const back = foot(body, knee, dice, -0.43 * size, between(-0.02, 0.06), 0.06 * size, -74 * down);
  return {
    ...upright, trunkPitch: between(-5, 25), pelvisPitch: between(-5, 15),
    root: [upright.root[0] + between(-0.04, 0.02) * size, upright.root[1] - down * (body.hipHeight - thigh - 0.06 * size), upright.root[2]],
    feet: { [knee]: { ...back, onFloor: true }, [front]: foot(body, front, dice, between(0.15, 0.34) * size, between(-0.02, 0.08), 0, 0) } as Channels['feet'],
  };
}

/** The same pose with the performer turned about the vertical, + to the left. */
function turned(c: Channels, deg: number): Channels {
  const about = aboutY(deg);
  const feet = Object.fromEntries(SIDES.map((side) => [side, {
    ...c.feet[side], ankle: turn(about, c.feet[side].ankle), yaw: c.feet[side].yaw - signOf(side) * deg,
  }])) as unknown as Channels['feet'];
  return { ...c, root: turn(about, c.root), pelvisYaw: c.pelvisYaw + deg, feet };
}

/** A foot within the leg's reach: lifted ones are brought nearer to the hip until they are. */
function reachable(body: Body, c: Channels): Channels {
  const longest = (body.hipHeight - body.ankleHeight) * 0.99;
  const shortest = longest * 0.38;
  const feet = Object.fromEntries(SIDES.map((side) => {
    const hip = [c.root[0], c.root[1], c.root[2] + signOf(side) * body.hipHalf] as const;
    const line = sub(c.feet[side].ankle, hip);
    const far = Math.hypot(...line);
    const by = Math.min(longest, Math.max(shortest, far)) / far;
    return [side, c.feet[side].onFloor ? c.feet[side] : { ...c.feet[side], ankle: [hip[0] + by * line[0], hip[1] + by * line[1], hip[2] + by * line[2]] }];
  })) as unknown as Channels['feet'];
  return withinReach(body, { ...c, feet });
}

function poseOf(body: Body, seed: string, emphasis: Emphasis): Channels {
  const dice = diceOf(seed);
  const legs = reachable(body, stance(body, dice, emphasis));
  let c: Channels = { ...legs, arms: { left: HANGING, right: HANGING } };
  for (const side of SIDES) {
    for (let n = 0; n < THROWS; n++) {
      const tried: Channels = { ...c, arms: { ...c.arms, [side]: arm(dice, emphasis) } };
      if (clashes(body, tried, side)) continue;
      c = tried;
      break;
    }
  }
  return turned(c, dice.between(-TURNED_DEG[emphasis], TURNED_DEG[emphasis]));
}

export function practice(name: string, emphasis: Emphasis): Action {
  return {
    name,
    says: 'Poses that have nothing to do with each other, one a frame.',
    durationS: POSES / RATE,
    channels: (body, timeS) => poseOf(body, `${name}/${Math.round(timeS * RATE)}`, emphasis),
  };
}
