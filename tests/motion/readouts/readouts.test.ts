/** Angles that are put in come out of the readouts, on both sides, with the senses that the papers give them. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { JOINT_COUNT, JOINT_NAMES, type JointName } from '../../../src/motion/joints.ts';
import { STATE_MEASURED, STATE_MISSING } from '../../../src/motion/motion.ts';
import { GIRDLE_FROM_RAD, GIRDLE_SHARE, inferredGirdleRad, shareGirdle } from '../../../src/motion/readouts/girdle.ts';
import { READOUTS, readoutSeries, readoutsOf } from '../../../src/motion/readouts/catalogue.ts';
import { mirrored, type RotationOf } from '../../../src/motion/readouts/readout.ts';
import { shareTurn, shareTurnByPart } from '../../../src/motion/readouts/shareTurn.ts';
import { trackToMotion } from '../../../src/motion/trackToMotion.ts';
import { fromEuler } from '../../../src/numeric/euler.ts';
import { angleBetween, angleOf, IDENTITY, multiply, type Quat, writeQuat } from '../../../src/numeric/quaternion.ts';
import { anyQuat, SEEDED } from '../../numeric/arbitrary.ts';
import { evenTimes, trackOf, turnX, turnY, turnZ } from '../figure.ts';

const RAD = Math.PI / 180;

function posing(joints: Partial<Record<JointName, Quat>>): RotationOf {
  return (joint) => joints[joint] ?? IDENTITY;
}

function deg(id: string, joints: Partial<Record<JointName, Quat>>): number {
  return READOUTS.find((readout) => readout.id === id)!.read(posing(joints)).rad / RAD;
}

const isb = (order: 'YXY' | 'ZXY', angles: readonly [number, number, number]): Quat =>
  fromEuler(order, [angles[0] * RAD, angles[1] * RAD, angles[2] * RAD]);

describe('worked cases of the ISB conventions (scipy 1.10.1, handed over with the reference values), either side', () => {
  const sides = [['right', (q: Quat) => q], ['left', mirrored]] as const;
  it.each(sides)('%s shoulder Y-X-Y: plane, elevation (shown without ISB’s minus), internal rotation', (side, as) => {
    for (const [plane, elevation, rotation] of [[0, -90, 0], [90, -90, 0], [60, -75, -20]] as const) {
      const joints = { [`${side}Shoulder`]: as(isb('YXY', [plane, elevation, rotation])) };
      // 1e-9 degrees: a few hundred roundings of numbers near 1
      expect(deg(`${side}Shoulder.plane`, joints)).toBeCloseTo(plane, 9);
      expect(deg(`${side}Shoulder.elevation`, joints)).toBeCloseTo(-elevation, 9);
      expect(deg(`${side}Shoulder.rotation`, joints)).toBeCloseTo(rotation, 9);
    }
  });

  it.each(sides)('%s hip Z-X-Y: flexion, adduction, internal rotation', (side, as) => {
    const joints = { [`${side}Hip`]: as(isb('ZXY', [30, -10, 15])) };
    expect(['flexion', 'adduction', 'rotation'].map((name) => Number(deg(`${side}Hip.${name}`, joints).toFixed(9)))).toEqual([30, -10, 15]);
  });

  it.each(sides)('%s knee and elbow bend positive, ankle toes up', (side, as) => {
    const joints = { [`${side}Knee`]: as(isb('ZXY', [-60, 0, 0])), [`${side}Elbow`]: as(isb('ZXY', [90, 0, 0])), [`${side}Ankle`]: as(isb('ZXY', [12, 0, 7])) };
    expect(deg(`${side}Knee.flexion`, joints)).toBeCloseTo(60, 9);
    expect(deg(`${side}Elbow.flexion`, joints)).toBeCloseTo(90, 9);
    expect(deg(`${side}Ankle.dorsiflexion`, joints)).toBeCloseTo(12, 9);
    expect(deg(`${side}Ankle.rotation`, joints)).toBeCloseTo(7, 9);
  });

  it.each(sides)('%s hand: roll of the forearm parted from the wrist', (side, as) => {
    // our rest has the palm to the thigh: 90° of ISB's pronation; bend toward the palm is about x, to the little finger about -z
    const turn = as(multiply(turnY(-50 * RAD), multiply(turnX(25 * RAD), turnZ(-8 * RAD))));
    const joints = { [`${side}Wrist`]: turn };
    expect(deg(`${side}Forearm.pronation`, joints)).toBeCloseTo(40, 9);
    expect(deg(`${side}Wrist.flexion`, joints)).toBeCloseTo(25, 9);
    expect(deg(`${side}Wrist.deviation`, joints)).toBeCloseTo(8, 9);
    expect(deg(`${side}Forearm.pronation`, {})).toBeCloseTo(90, 9);
  });
});

describe('singular zones are marked', () => {
  const singular = (id: string, joints: Partial<Record<JointName, Quat>>): boolean =>
    READOUTS.find((readout) => readout.id === id)!.read(posing(joints)).singular;
  it('shoulder hanging and overhead: plane and rotation, not elevation', () => {
    for (const elevation of [0, -5, -178]) {
      const joints = { rightShoulder: isb('YXY', [40, elevation, -15]) };
      expect(['plane', 'rotation', 'elevation', 'heading'].map((name) => singular(`rightShoulder.${name}`, joints))).toEqual([true, true, false, true]);
    }
    expect(singular('rightShoulder.plane', { rightShoulder: isb('YXY', [40, -60, 0]) })).toBe(false);
  });
  it('a thigh straight out to the side', () => {
    expect(singular('leftHip.flexion', { leftHip: mirrored(isb('ZXY', [30, -89.9, 20])) })).toBe(true);
    expect(singular('leftHip.adduction', { leftHip: mirrored(isb('ZXY', [30, -89.9, 20])) })).toBe(false);
  });
});

describe('trunk and head', () => {
  it('reads the order it says, with the senses it says', () => {
    const pelvis = multiply(turnY(130 * RAD), multiply(turnX(10 * RAD), turnZ(-25 * RAD)));
    expect(['turn', 'side', 'forward'].map((name) => Number(deg(`pelvis.${name}`, { pelvis }).toFixed(9)))).toEqual([130, 10, 25]);
    const half = shareTurn(isb('ZXY', [-30, 12, 20]), [1, 1]);
    expect(['bend', 'side', 'twist'].map((name) => Number(deg(`spine.${name}`, { spine: half[0]!, chest: half[1]! }).toFixed(9)))).toEqual([30, 12, 20]);
    const head = multiply(turnY(40 * RAD), multiply(turnX(-5 * RAD), turnZ(15 * RAD)));
    expect(['turn', 'tilt', 'nod'].map((name) => Number(deg(`head.${name}`, { head }).toFixed(9)))).toEqual([40, -5, 15]);
  });
});

describe('every readout', () => {
  const pose = fc.array(anyQuat, { minLength: JOINT_COUNT, maxLength: JOINT_COUNT });

  it('has a name of its own and belongs to a joint', () => {
    expect(new Set(READOUTS.map(({ id }) => id)).size).toBe(READOUTS.length);
    expect(readoutsOf('leftShoulder').length).toBeGreaterThan(3);
  });

  it('is a number for any turns at all, at rest and at half turns', () => {
    fc.assert(fc.property(pose, (quats) => {
      for (const readout of READOUTS) expect(Number.isFinite(readout.read((j) => quats[JOINT_NAMES.indexOf(j)]!).rad), readout.id).toBe(true);
    }), SEEDED);
    for (const q of [IDENTITY, [0, 1, 0, 0], [0, 0, 1, 0], [0, 0, 0, 1], [-1, 0, 0, 0]] as const) {
      for (const readout of READOUTS) expect(Number.isFinite(readout.read(() => q).rad), readout.id).toBe(true);
    }
  });

  it('reads the same on the other side in a mirror, and the other way on the midline', () => {
    const other = (name: string): string => (name.startsWith('left') ? name.replace('left', 'right') : name.replace('right', 'left'));
    fc.assert(fc.property(pose, (quats) => {
      const of: RotationOf = (j) => quats[JOINT_NAMES.indexOf(j)]!;
      const inMirror: RotationOf = (j) => mirrored(of(other(j) as JointName));
      for (const readout of READOUTS) {
        const twin = READOUTS.find(({ id }) => id === other(readout.id))!;
        const [a, b] = [readout.read(of).rad, twin.read(inMirror).rad];
        const flips = readout === twin && ['turn', 'side', 'twist', 'tilt'].includes(readout.id.split('.')[1]!);
        // as directions, since -180° and 180° are one
        expect(Math.abs(Math.sin((a - (flips ? -b : b)) / 2)), readout.id).toBeLessThan(1e-6);
      }
    }), { ...SEEDED, numRuns: 60 });
  });
});

describe('over time', () => {
  it('goes on through half a turn, leaves missing moments open and counts anew behind them', () => {
    const count = 6;
    const rotations = new Float64Array(count * JOINT_COUNT * 4);
    const state = new Uint8Array(count * JOINT_COUNT).fill(STATE_MEASURED);
    [150, 170, 190, 210, 0, 190].forEach((turn, s) => {
      for (let j = 0; j < JOINT_COUNT; j++) writeQuat(rotations, s * JOINT_COUNT + j, IDENTITY);
      writeQuat(rotations, s * JOINT_COUNT, turnY(turn * RAD));
    });
    state.fill(STATE_MISSING, 4 * JOINT_COUNT, 5 * JOINT_COUNT);
    const { deg: turns } = readoutSeries({ rotations, state }, READOUTS.find(({ id }) => id === 'pelvis.turn')!);
    expect([...turns].map((value) => Math.round(value))).toEqual([150, 170, 190, 210, Number.NaN, -170]);
  });

  it('comes out of a figure’s landmarks as it was put in', () => {
    const pose = { rightShoulder: isb('YXY', [70, -60, 10]), rightElbow: 1.2, rightHip: isb('ZXY', [40, -15, 5]), rightKnee: 1, leftElbow: 1, leftKnee: 1 };
    const motion = trackToMotion(trackOf([pose, pose, pose], evenTimes(3, 30)), { captureFactor: 1, mirror: false, cutoffHz: 0 });
    const at = (id: string): number => readoutSeries(motion, READOUTS.find((readout) => readout.id === id)!).deg[1]!;
    // 32-bit tracks: see rotations.test.ts
    expect(at('rightShoulder.elevation')).toBeCloseTo(60, 2);
    expect(at('rightShoulder.plane')).toBeCloseTo(70, 2);
    expect(at('rightShoulder.rotation')).toBeCloseTo(10, 2);
    expect(at('rightHip.flexion')).toBeCloseTo(40, 2);
    expect(at('rightElbow.flexion')).toBeCloseTo(1.2 / RAD, 2);
  });
});

describe('a turn shared over joints', () => {
  const weights = fc.array(fc.double({ min: 0, max: 5, noNaN: true }), { minLength: 1, maxLength: 7 });

  it('gives the whole turn again, in shares', () => {
    fc.assert(fc.property(anyQuat, weights, (q, shares) => {
      const parts = shareTurn(q, shares);
      expect(angleBetween(parts.reduce(multiply, IDENTITY), q)).toBeLessThan(1e-12);
      const sum = shares.reduce((total, w) => total + w, 0);
      if (sum > 1e-3) parts.forEach((part, k) => expect(angleOf(part)).toBeCloseTo((angleOf(q) * shares[k]!) / sum, 9));
    }), SEEDED);
  });

  it('part by part too', () => {
    const q = isb('ZXY', [-30, 10, 20]);
    const parts = shareTurnByPart(q, { bend: [55, 45, 20], side: [1, 1, 1], twist: [0, 35, 65] });
    expect(angleBetween(parts.reduce(multiply, IDENTITY), q)).toBeLessThan(1e-12);
    // the first bead doesn't twist, the last most
    expect(Math.abs(parts[0]![2])).toBeLessThan(1e-12);
    expect(parts[2]![2]).toBeGreaterThan(parts[1]![2]);
  });
});

describe('the shoulder girdle', () => {
  it('is inferred from the raised arm and takes nothing away from it', () => {
    fc.assert(fc.property(anyQuat, fc.constantFrom('left', 'right'), (q, side) => {
      const { clavicle, shoulder } = shareGirdle(side, q);
      expect(angleBetween(multiply(clavicle, shoulder), q)).toBeLessThan(1e-12);
    }), SEEDED);
    expect(inferredGirdleRad(0) / RAD).toBeLessThan(0.1);
    expect(inferredGirdleRad(150 * RAD)).toBeCloseTo(GIRDLE_SHARE * (150 * RAD - GIRDLE_FROM_RAD), 2);
    // shoulder up: the arm's end of the collar bone rises on either side
    expect(shareGirdle('right', isb('YXY', [0, -150, 0])).clavicle[1]).toBeLessThan(0);
    expect(shareGirdle('left', mirrored(isb('YXY', [0, -150, 0]))).clavicle[1]).toBeGreaterThan(0);
  });
});
