/**
 * Which way is up: pitch and roll given, and pitch and roll found. The detector's faults are on. Bounds of what is found are what
 * was reached, and a little; docs/method-fit.md says the same figures.
 */
import { describe, expect, it } from 'vitest';
import { fitBody, type FitOptions } from '../../../src/motion/fit/fitBody.ts';
import type { FittedBody } from '../../../src/motion/fit/fittedBody.ts';
import { LANDMARK, LANDMARK_COUNT } from '../../../src/pose/landmarks.ts';
import { squat, walkAcross } from './moves.ts';
import { FAULTS, film, FRONT, times, type Faults, type SyntheticPose } from './syntheticTake.ts';

const DEG = Math.PI / 180;
const SECONDS = 3;

function fitFrom(pitchDeg: number, rollDeg: number, move: 'squat' | 'walk', options: FitOptions = {}, faults: Faults = FAULTS): FittedBody {
  const distanceM = move === 'walk' ? 6 : FRONT.distanceM;
  const poseAt = (t: number): SyntheticPose => (move === 'walk' ? walkAcross(t, SECONDS) : squat(t));
  const camera = {
    ...FRONT, distanceM, azimuthDeg: move === 'walk' ? 0 : 35, pitchDeg, rollDeg,
    // Aimed at the middle of the body, whatever the pitch.
    heightM: 0.9 + distanceM * Math.tan(pitchDeg * DEG),
  };
  return fitBody(film(times(SECONDS, 30), poseAt, camera, faults).track, { verticalFovDeg: FRONT.verticalFovDeg, ...options });
}

/** Tilt of the hips' line against the floor, degrees, mean over the take: positive where the left hip is the higher. */
function hipTiltDeg({ pointsM, timesS }: FittedBody): number {
  let sum = 0;
  for (let t = 0; t < timesS.length; t++) {
    const [left, right] = [LANDMARK.leftHip, LANDMARK.rightHip].map((l) => pointsM.subarray((t * LANDMARK_COUNT + l) * 3, (t * LANDMARK_COUNT + l) * 3 + 3));
    sum += Math.atan2(left![1]! - right![1]!, Math.hypot(left![0]! - right![0]!, left![2]! - right![2]!)) / DEG;
  }
  return sum / timesS.length;
}

describe('a camera that was given', { timeout: 60_000 }, () => {
  it('is held, and the body stands level in it', () => {
    const { camera } = fitFrom(10, 5, 'squat', { pitchRad: 10 * DEG, rollRad: 5 * DEG });
    // The prior of a given angle: 0.2°.
    expect(Math.abs(camera.pitchRad / DEG - 10)).toBeLessThan(0.1);
    expect(Math.abs(camera.rollRad / DEG - 5)).toBeLessThan(0.1);
    expect(camera.given).toEqual({ pitch: true, roll: true, fov: true });
    expect(camera.pitchSigmaRad / DEG).toBeLessThan(0.21);
    expect(camera.rollSigmaRad / DEG).toBeLessThan(0.21);
    // A drift of 4 px is 8° of so short a line as the hips'.
    const still = { ...FAULTS, biasPx: 0 };
    const right = hipTiltDeg(fitFrom(0, 5, 'squat', { rollRad: 5 * DEG }, still));
    const wrong = hipTiltDeg(fitFrom(0, 5, 'squat', { rollRad: -5 * DEG }, still));
    console.info(`roll of 5° given: hips tilted ${right.toFixed(1)}°; -5° given: ${wrong.toFixed(1)}°`);
    expect(Math.abs(right)).toBeLessThan(3);
    expect(Math.abs(wrong)).toBeGreaterThan(5);
  });
});

const SEEDS = [1, 2, 3];
const rms = (values: readonly number[]): number => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0) / values.length);

/** RMS errors and sigmas of pitch (true 10° times each sign) and roll (true 5° times it), degrees, over seeds. */
function errors(move: 'squat' | 'walk', signs: readonly number[]): { pitch: number; roll: number; pitchSigma: number; rollSigma: number } {
  const found = signs.flatMap((sign) => SEEDS.map((seed) => {
    const { camera } = fitFrom(10 * sign, 5 * sign, move, {}, { ...FAULTS, seed });
    return { pitch: camera.pitchRad / DEG - 10 * sign, roll: camera.rollRad / DEG - 5 * sign, pitchSigma: camera.pitchSigmaRad / DEG, rollSigma: camera.rollSigmaRad / DEG };
  }));
  const out = {
    pitch: rms(found.map((f) => f.pitch)), roll: rms(found.map((f) => f.roll)),
    pitchSigma: rms(found.map((f) => f.pitchSigma)), rollSigma: rms(found.map((f) => f.rollSigma)),
  };
  const list = (key: 'pitch' | 'roll'): string => found.map((f) => f[key].toFixed(1)).join(', ');
  console.info(`${move}, ${signs.map((sign) => `pitch ${10 * sign}° roll ${5 * sign}°`).join(', ')}: pitch off by ${out.pitch.toFixed(1)}° RMS (${list('pitch')}), told ± ${out.pitchSigma.toFixed(1)}°;`
    + ` roll off by ${out.roll.toFixed(1)}° RMS (${list('roll')}), told ± ${out.rollSigma.toFixed(1)}°`);
  return out;
}

describe('a camera that is found', { timeout: 60_000 }, () => {
  it('pitch on a squat: within 4° RMS; roll is not found there and reads level, with the prior’s sigma', () => {
    const { pitch, roll, pitchSigma, rollSigma } = errors('squat', [1, -1]);
    expect(pitch).toBeLessThan(4);
    // Told is about what is missing, and less than the prior, widened as it is: something was learnt.
    expect(pitchSigma).toBeGreaterThan(0.7 * pitch);
    expect(pitchSigma).toBeLessThan(4);
    // Not found: the whole 5° are missing. Its prior is 1.5°.
    expect(roll).toBeLessThan(6.5);
    expect(rollSigma).toBeGreaterThan(1.2);
  });

  it('walking across: roll within 3° RMS, pitch within 7°; the pitch’s sigma tells most of it, the roll’s half', () => {
    const { pitch, roll, pitchSigma, rollSigma } = errors('walk', [1, 0, -1]);
    expect(roll).toBeLessThan(3);
    expect(rollSigma).toBeLessThan(1.2);
    expect(pitch).toBeLessThan(7);
    expect(pitchSigma).toBeGreaterThan(0.7 * pitch);
    expect(pitchSigma).toBeLessThan(5);
  });

  it('says nothing of its sureness where it was stopped', () => {
    const take = film(times(1, 30), squat);
    expect(fitBody(take.track, {}, { shouldStop: () => true }).camera.pitchSigmaRad).toBeNaN();
  });
});
