/**
 * The same take through another camera, and in a mirror, gives the same joint angles.
 *
 * Not to the last digit, and not by a mistake in the code: the landmarks' and depths' habits that the fit takes off
 * (`fit/habits.ts`) are those of the real model, which this detector lacks, and what they do depends on how the body stands to the
 * camera. Squeezed depth is the only fault left on while the camera moves. Bounds are what was reached, and a little.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { fitBody } from '../../../src/motion/fit/fitBody.ts';
import { LANDMARK } from '../../../src/pose/landmarks.ts';
import type { ModelSize, Track } from '../../../src/pose/track.ts';
import { mirrored } from './mirrored.ts';
import { squat } from './moves.ts';
import { FAULTS, film, flexionDeg, FRONT, HINGES, NO_FAULTS, times, type SyntheticCamera } from './syntheticTake.ts';

/** Angles at joints, each with the class its bound belongs to; left before right. */
const ANGLES = {
  leftElbow: HINGES.leftElbow, rightElbow: HINGES.rightElbow, leftKnee: HINGES.leftKnee, rightKnee: HINGES.rightKnee,
  leftShoulder: [LANDMARK.leftHip, LANDMARK.leftShoulder, LANDMARK.leftElbow], rightShoulder: [LANDMARK.rightHip, LANDMARK.rightShoulder, LANDMARK.rightElbow],
  leftHip: [LANDMARK.leftShoulder, LANDMARK.leftHip, LANDMARK.leftKnee], rightHip: [LANDMARK.rightShoulder, LANDMARK.rightHip, LANDMARK.rightKnee],
} as const;
type Angle = keyof typeof ANGLES;
const NAMES = Object.keys(ANGLES) as Angle[];
const KINDS = ['Elbow', 'Knee', 'Shoulder', 'Hip'] as const;
type Kind = (typeof KINDS)[number];
const SECONDS = 3;
const FRAMES = SECONDS * 30;

type Curves = Readonly<Record<Angle, readonly number[]>>;

function anglesOf(track: Track): Curves {
  const { pointsM } = fitBody(track, { verticalFovDeg: FRONT.verticalFovDeg });
  expect(pointsM.every(Number.isFinite)).toBe(true);
  return Object.fromEntries(NAMES.map((name) => [name, Array.from({ length: FRAMES }, (_, t) => flexionDeg(pointsM, t, ...ANGLES[name]))])) as Record<Angle, number[]>;
}

/** Largest difference of each kind of joint over all frames, degrees. */
function apart(a: Curves, b: Curves, partner: (name: Angle) => Angle = (name) => name): Record<Kind, number> {
  return Object.fromEntries(KINDS.map((kind) => [kind, Math.max(...NAMES.filter((name) => name.endsWith(kind))
    .flatMap((name) => a[name].map((v, t) => Math.abs(v - b[partner(name)][t]!))))])) as Record<Kind, number>;
}

const words = (by: Record<Kind, number>): string => KINDS.map((kind) => `${kind.toLowerCase()} ${by[kind].toFixed(1)}°`).join(', ');
const seenFrom = (camera: Partial<SyntheticCamera>): Curves =>
  anglesOf(film(times(SECONDS, 30), squat, { ...FRONT, azimuthDeg: 60, ...camera }, { ...NO_FAULTS, depthGain: 0.6 }).track);

describe('another camera', { timeout: 60_000 }, () => {
  let usual: Curves;
  beforeAll(() => { usual = seenFrom({}); });

  it.each([
    ['farther off', { distanceM: 6.5 }],
    ['at the knee, looking up', { heightM: 0.5, pitchDeg: -6 }],
    ['above the head, looking down', { heightM: 1.9, pitchDeg: 10 }],
  ] as const)('%s: the angles stay', (name, camera) => {
    const by = apart(usual, seenFrom(camera));
    console.info(`camera ${name}: angles differ by at most ${words(by)}`);
    expect(by.Knee).toBeLessThan(3.5);
    expect(by.Hip).toBeLessThan(4);
    expect(by.Shoulder).toBeLessThan(5);
    // An elbow nearly straight (8°): the cosine is flat there.
    expect(by.Elbow).toBeLessThan(6.5);
  });

  it.each([35, 80])('from %d° instead of 60°: the angles stay, less closely', (azimuthDeg) => {
    const by = apart(usual, seenFrom({ azimuthDeg }));
    console.info(`camera at ${azimuthDeg}° for 60°: angles differ by at most ${words(by)}`);
    expect(by.Knee).toBeLessThan(5);
    expect(by.Hip).toBeLessThan(7);
    expect(by.Shoulder).toBeLessThan(10);
    expect(by.Elbow).toBeLessThan(8);
  });
});

describe('a mirror', { timeout: 60_000 }, () => {
  const other = (name: Angle): Angle => (name.startsWith('left') ? name.replace('left', 'right') : name.replace('right', 'left')) as Angle;
  const mirrorGap = (model: ModelSize, seed: number): Record<Kind, number> => {
    const track: Track = { ...film(times(SECONDS, 30), squat, { ...FRONT, azimuthDeg: 35 }, { ...FAULTS, seed }).track, model };
    return apart(anglesOf(track), anglesOf(mirrored(track)), other);
  };

  it.each([['lite', 1], ['full', 2]] as const)('%s: left and right change places, all faults on', (model, seed) => {
    const by = mirrorGap(model, seed);
    console.info(`mirrored, ${model}: angles differ by at most ${words(by)}`);
    // The solver stops when nearly done, and damps in tangent planes that are not mirrored.
    for (const kind of KINDS) expect(by[kind], kind).toBeLessThan(1.5);
  });

  it('heavy is the exception: its own weights are not alike for left and right, and the fit takes that off', () => {
    const by = mirrorGap('heavy', 1);
    console.info(`mirrored, heavy: angles differ by at most ${words(by)}`);
    expect(Math.max(...KINDS.map((kind) => by[kind]))).toBeGreaterThan(2);
    expect(by.Knee).toBeLessThan(15);
  });
});
