/** What does not fit a limit goes to neighbours that make the same move, and only to those. */
import { describe, expect, it } from 'vitest';
import { JOINT_COUNT, JOINT_NAMES, type JointName } from '../../src/motion/joints.ts';
import { STATE_MEASURED } from '../../src/motion/motion.ts';
import { angleBetween, angleOf, fromAxisAngle, IDENTITY, multiply, readQuat, writeQuat, type Quat } from '../../src/numeric/quaternion.ts';
import { applyArmature } from '../../src/puppet/applyArmature.ts';
import type { Armature, Drive, Joint, PuppetKind, Range, Triple } from '../../src/puppet/armature.ts';
import { checkArmature } from '../../src/puppet/parseArmature.ts';
import { FLAG_CLIPPED, FLAG_SPREAD } from '../../src/puppet/puppetPoses.ts';
import type { Poses } from '../../src/timing/poses.ts';

const DEG = 180 / Math.PI;
const ALL_SEEN = new Uint8Array(JOINT_COUNT).fill(1);

/** One moment in which one joint of the performer is turned. */
function turnedAt(name: JointName, q: Quat): Poses {
  const rotations = new Float64Array(JOINT_COUNT * 4);
  JOINT_NAMES.forEach((own, j) => writeQuat(rotations, j, own === name ? q : IDENTITY));
  return {
    timesS: Float64Array.of(0), rotations, rootM: new Float64Array(3), contacts: new Uint8Array(2), confidence: new Float32Array(JOINT_COUNT).fill(1),
    state: new Uint8Array(JOINT_COUNT).fill(STATE_MEASURED), errorDeg: new Float32Array(JOINT_COUNT), turnErrorDeg: new Float32Array(JOINT_COUNT), unsure: new Uint8Array(JOINT_COUNT),
  };
}

interface Link {
  readonly kind: PuppetKind;
  readonly axis?: Triple;
  readonly limitsDeg?: Joint['limitsDeg'];
  readonly from?: JointName;
  readonly weight?: number;
}

/** A root bone with a row of links of 40 mm upon it, all upright. */
function row(links: readonly Link[]): Armature {
  const name = (k: number): string => (k < 0 ? 'foot' : `link${k}`);
  return checkArmature({
    format: 'nudgebook-armature', version: 2, name: 'Row',
    bones: [-1, ...links.keys()].map((k) => ({ name: name(k), lengthMm: 40, along: [0, 1, 0] })),
    joints: [{ name: 'foot', parent: null, child: 'foot', kind: 'ball' }, ...links.map(({ kind, axis, limitsDeg }, k) => ({
      name: name(k), parent: name(k - 1), child: name(k), kind, ...(axis === undefined ? {} : { axis }), ...(limitsDeg === undefined ? {} : { limitsDeg }),
    }))],
    drives: [{ joint: 'foot', from: null }, ...links.map(({ from, weight }, k): Drive => ({ joint: name(k), from: from ?? null, weight: weight ?? 1 }))],
  });
}

/** Turns and flags of the links, the root's left out. */
function linksOf(armature: Armature, source: JointName, q: Quat): { turns: readonly Quat[]; flags: readonly number[] } {
  const { rotations, flags, joints } = applyArmature(turnedAt(source, q), ALL_SEEN, armature);
  return { turns: joints.slice(1).map((_, p) => readQuat(rotations, p + 1)), flags: [...flags.slice(1)] };
}

describe('a swivel beside a hinge', () => {
  const up: Triple = [0, 1, 0];
  const turn = fromAxisAngle(up, 35 / DEG);

  it('about the same line takes what the hinge has no room for', () => {
    const armature = row([{ kind: 'hinge', axis: up, limitsDeg: { axis: [-20, 20] }, from: 'head' }, { kind: 'swivel', axis: up }]);
    const { turns, flags } = linksOf(armature, 'head', turn);
    expect(turns.map((q) => angleOf(q) * DEG)).toEqual([expect.closeTo(20, 6), expect.closeTo(15, 6)]);
    expect(angleBetween(multiply(turns[0]!, turns[1]!), turn)).toBeLessThan(1e-7);
    expect(flags).toEqual([FLAG_SPREAD, FLAG_SPREAD]);
  });

  it('takes it as far as its own limit, and the rest is cut off', () => {
    const armature = row([{ kind: 'hinge', axis: up, limitsDeg: { axis: [-20, 20] }, from: 'head' }, { kind: 'swivel', axis: up, limitsDeg: { axis: [-5, 5] } }]);
    const { turns, flags } = linksOf(armature, 'head', turn);
    expect(turns.map((q) => angleOf(q) * DEG)).toEqual([expect.closeTo(20, 6), expect.closeTo(5, 6)]);
    expect(flags).toEqual([FLAG_CLIPPED | FLAG_SPREAD, FLAG_SPREAD]);
  });

  it('about another line takes nothing: that would be another move', () => {
    const armature = row([{ kind: 'hinge', axis: up, limitsDeg: { axis: [-20, 20] }, from: 'head' }, { kind: 'hinge', axis: [0, 0, 1] }]);
    const { turns, flags } = linksOf(armature, 'head', turn);
    expect(turns.map((q) => angleOf(q) * DEG)).toEqual([expect.closeTo(20, 6), expect.closeTo(0, 6)]);
    expect(flags).toEqual([FLAG_CLIPPED, 0]);
  });
});

describe('a spine of three balls that share one bend', () => {
  const right: Triple = [0, 0, 1];
  const bend = fromAxisAngle(right, 60 / DEG);
  const limit = (deg: number): { forward: Range; up: Range; right: Range } => ({ forward: [-deg, deg], up: [-deg, deg], right: [-deg, deg] });
  const spine = (...links: readonly Omit<Link, 'kind' | 'from'>[]): Armature => row(links.map((link) => ({ kind: 'ball', from: 'spine', ...link })));

  it('shares it by weights while all have room', () => {
    const { turns, flags } = linksOf(spine({ weight: 1, limitsDeg: limit(80) }, { weight: 2 }, { weight: 3 }), 'spine', bend);
    expect(turns.map((q) => angleOf(q) * DEG)).toEqual([expect.closeTo(10, 6), expect.closeTo(20, 6), expect.closeTo(30, 6)]);
    expect(flags).toEqual([0, 0, 0]);
  });

  it('gives what one can’t take to the others by their weights, and keeps the whole', () => {
    const { turns, flags } = linksOf(spine({ weight: 1 }, { weight: 2 }, { weight: 3, limitsDeg: limit(18) }), 'spine', bend);
    // 12° are left over, for weights of 1 and 2
    expect(turns.map((q) => angleOf(q) * DEG)).toEqual([expect.closeTo(14, 4), expect.closeTo(28, 4), expect.closeTo(18, 6)]);
    expect(angleBetween(turns.reduce(multiply, IDENTITY), bend)).toBeLessThan(1e-6);
    expect(flags).toEqual([FLAG_SPREAD, FLAG_SPREAD, FLAG_SPREAD]);
  });

  it('cuts off what all together can’t take', () => {
    const { turns, flags } = linksOf(spine({ limitsDeg: limit(15) }, { limitsDeg: limit(15) }, { limitsDeg: limit(15) }), 'spine', bend);
    expect(turns.map((q) => angleOf(q) * DEG)).toEqual([expect.closeTo(15, 6), expect.closeTo(15, 6), expect.closeTo(15, 6)]);
    expect(flags.every((flag) => (flag & FLAG_CLIPPED) !== 0)).toBe(true);
  });
});
