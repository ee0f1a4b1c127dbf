import { describe, expect, it } from 'vitest';
import { NudgebookError } from '../../src/errors.ts';
import { JOINT_COUNT, JOINT_NAMES } from '../../src/motion/joints.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { angleBetween, readQuat } from '../../src/numeric/quaternion.ts';
import { emptyTrack, type Track } from '../../src/pose/track.ts';
import { evenTimes, figure, gaussian, jointAt, loseFrame, trackOf, turnX, turnY, turnZ, type FigurePose } from './figure.ts';

const PLAIN = { captureFactor: 1, mirror: false, cutoffHz: 0 };

/** A lively, smooth motion: everything moves, elbows and knees stay bent. */
function dance(timeS: number): FigurePose {
  const s = (hz: number, phase: number): number => Math.sin(2 * Math.PI * hz * timeS + phase);
  return {
    pelvis: turnY(0.3 * s(0.4, 0)), lean: 0.1 * s(0.5, 1), shoulders: turnY(0.3 * s(0.6, 2)), head: turnY(0.4 * s(0.3, 3)),
    leftShoulder: turnX(0.7 + 0.4 * s(0.7, 0)), leftElbow: 1.2 + 0.4 * s(0.8, 1),
    rightShoulder: turnZ(0.8 * s(0.5, 2)), rightElbow: 1.2 + 0.4 * s(0.9, 0),
    leftHip: turnZ(0.5 + 0.3 * s(0.6, 0)), leftKnee: 1 + 0.3 * s(0.6, 0),
    rightHip: turnZ(0.5 + 0.3 * s(0.6, 3)), rightKnee: 1 + 0.3 * s(0.6, 3),
    rootM: [0, 0, 0.3 * s(0.3, 0)],
  };
}

describe('smoothing in the chain', () => {
  it('takes noise out and leaves the motion', () => {
    const times = evenTimes(150, 30);
    const truth = [...times].map(dance);
    const track = trackOf(truth, times, { noiseM: 0.004, seed: 3 });
    const rms = (cutoffHz: number): number => {
      const { rotations } = trackToMotion(track, { ...PLAIN, cutoffHz });
      let sum = 0;
      for (let t = 0; t < times.length; t++) {
        sum += angleBetween(jointAt(rotations, t, 'leftElbow'), figure(truth[t]!).rotations.leftElbow) ** 2;
      }
      return Math.sqrt(sum / times.length);
    };
    // white noise keeps 6 of 15 Hz, i.e. √0.4 = 0.63 of its size, plus a little of the motion at the ends
    expect(rms(6) / rms(0)).toBeLessThan(0.7);
    expect(rms(6) / rms(0)).toBeGreaterThan(0.5);
  });

  it('uneven frames give the same motion as even ones', () => {
    const random = gaussian(5);
    const even = evenTimes(120, 30);
    // every frame up to a third of an interval off its place
    const uneven = even.map((t) => t + Math.max(-1, Math.min(1, random())) / 90);
    const { rotations } = trackToMotion(trackOf([...uneven].map(dance), uneven), { ...PLAIN, cutoffHz: 6 });
    for (let t = 5; t < 115; t++) {
      for (const joint of ['leftElbow', 'rightShoulder', 'rightKnee'] as const) {
        // what PCHIP there and back costs on moves of 0.9 Hz at 30 frames a second; the ends are looser
        expect(angleBetween(jointAt(rotations, t, joint), figure(dance(uneven[t]!)).rotations[joint])).toBeLessThan(0.02);
      }
    }
  });

  it('measures the cut-off in the performer’s time', () => {
    const times = evenTimes(300, 30);
    const slow = trackOf([...times].map((t) => dance(t / 8)), times, { noiseM: 0.003 });
    const fast = trackOf([...times].map((t) => dance(t / 8)), times.map((t) => t / 8), { noiseM: 0.003 });
    const a = trackToMotion(slow, { ...PLAIN, captureFactor: 8, cutoffHz: 6 });
    const b = trackToMotion(fast, { ...PLAIN, cutoffHz: 6 });
    for (let t = 0; t < 300; t += 10) {
      expect(angleBetween(jointAt(a.rotations, t, 'leftElbow'), jointAt(b.rotations, t, 'leftElbow'))).toBeLessThan(1e-9);
    }
    expect(a.timesS).toBe(slow.timesS);
  });

  it('says when footage is too slow or a stretch too short to smooth, and leaves it alone', () => {
    const times = evenTimes(20, 5);
    const track = trackOf([...times].map(dance), times, { noiseM: 0.003 });
    const motion = trackToMotion(track, { ...PLAIN, cutoffHz: 6 });
    expect(motion.usedCutoffHz).toBeNull();
    expect(motion.warnings.join()).toContain('5.0 frames a second');
    expect(motion.rotations).toEqual(trackToMotion(track, PLAIN).rotations);

    const broken = trackOf([...evenTimes(40, 30)].map(dance), evenTimes(40, 30));
    for (let t = 6; t < 20; t++) loseFrame(broken, t);
    const some = trackToMotion(broken, { ...PLAIN, cutoffHz: 6 });
    expect(some.usedCutoffHz).toBe(6);
    expect(some.warnings.join()).toContain('1 stretch of fewer than 10 frames');
    expect(trackToMotion(broken, PLAIN).warnings).toEqual([]);
    expect(trackToMotion(broken, PLAIN).usedCutoffHz).toBeNull();
  });

  it('treats time forward and backward alike', () => {
    const times = evenTimes(90, 30);
    const poses = [...times].map(dance);
    const forth = trackToMotion(trackOf(poses, times), { ...PLAIN, cutoffHz: 6 });
    const back = trackToMotion(trackOf([...poses].reverse(), times), { ...PLAIN, cutoffHz: 6 });
    for (let t = 0; t < 90; t++) {
      for (const joint of JOINT_NAMES) {
        // what the filter's start states leave, see tests/numeric/butterworth.test.ts
        expect(angleBetween(jointAt(forth.rotations, t, joint), jointAt(back.rotations, 89 - t, joint)), joint).toBeLessThan(1e-3);
      }
    }
  });
});

describe('the motion', () => {
  it('holds unit quaternions of one sign, hinges about z only and never bent backward', () => {
    const times = evenTimes(120, 30);
    const { rotations } = trackToMotion(trackOf([...times].map(dance), times, { noiseM: 0.01 }), { ...PLAIN, cutoffHz: 6 });
    for (let t = 0; t < 120; t++) {
      JOINT_NAMES.forEach((joint, j) => {
        const q = readQuat(rotations, t * JOINT_COUNT + j);
        expect(Math.abs(Math.hypot(...q) - 1)).toBeLessThan(1e-12);
        if (t > 0) {
          const before = readQuat(rotations, (t - 1) * JOINT_COUNT + j);
          expect(q[0] * before[0] + q[1] * before[1] + q[2] * before[2] + q[3] * before[3]).toBeGreaterThan(0);
        }
        if (/Elbow|Knee/.test(joint)) expect(Math.abs(q[1]) + Math.abs(q[2])).toBe(0);
        if (/Elbow/.test(joint)) expect(q[3]).toBeGreaterThanOrEqual(0);
        if (/Knee/.test(joint)) expect(q[3]).toBeLessThanOrEqual(0);
      });
    }
  });

  it('follows the hips across the picture and their height above the lower foot', () => {
    const times = evenTimes(60, 30);
    const poses = [...times].map((t): FigurePose => ({ rootM: [0, 0, 0.5 * t], leftKnee: 1.2, leftHip: turnZ(0.6) }));
    const { rootM } = trackToMotion(trackOf(poses, times), PLAIN);
    for (let t = 0; t < 60; t++) {
      expect(rootM[t * 3]).toBe(0);
      // the right leg is straight: thigh, shank, and the sole 7 cm under the ankle
      expect(rootM[t * 3 + 1]).toBeCloseTo(0.42 + 0.41 + 0.07, 6);
      expect(rootM[t * 3 + 2]).toBeCloseTo(0.5 * times[t]!, 5);
    }
  });

  it('stays finite when landmarks fall together, and says so', () => {
    const track = trackOf([{}, {}, {}], [0, 0.1, 0.2]);
    track.world.fill(0);
    const motion = trackToMotion(track, PLAIN);
    expect(motion.rotations.every(Number.isFinite)).toBe(true);
    expect(motion.rootM.every(Number.isFinite)).toBe(true);
    expect(motion.warnings.join()).toContain('3 frames landmarks fell together');
  });
});

describe('bad tracks', () => {
  const good = (): Track => trackOf([{}, {}], [0, 0.1]);
  const cases: readonly (readonly [string, () => Track, string, RegExp])[] = [
    ['no frames', () => emptyTrack('full', 10, 10, new Float64Array(0)), 'no-person', /no frames/],
    ['nobody', () => emptyTrack('full', 10, 10, new Float64Array([0, 1, 2])), 'no-person', /any of the 3 frames/],
    ['short list', () => ({ ...good(), world: new Float32Array(3) }), 'bad-track', /world holds 3 numbers where 2 frames need 198/],
    ['time that stands', () => ({ ...good(), timesS: new Float64Array([1, 1]) }), 'bad-track', /frame 2 does not lie after/],
    ['time missing', () => ({ ...good(), timesS: new Float64Array([0, Number.NaN]) }), 'bad-track', /frame 2 has no time/],
    ['numbers missing', () => { const t = good(); t.world[5] = Number.NaN; return t; }, 'bad-track', /frame 1 is marked as found/],
  ];
  it.each(cases)('%s', (_, make, code, sentence) => {
    let thrown: unknown;
    try {
      trackToMotion(make(), PLAIN);
    } catch (error) {
      thrown = error;
    }
    expect(thrown).toBeInstanceOf(NudgebookError);
    expect((thrown as NudgebookError).code).toBe(code);
    expect((thrown as NudgebookError).message).toMatch(sentence);
  });
});
