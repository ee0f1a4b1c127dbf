/** The whole comparison: no error where there is none, the right one where one is put in, and a word where nothing matches. */
import { describe, expect, it } from 'vitest';
import { JOINT_CLASSES } from '../../scripts/accuracy/bodyAngles.ts';
import { compareClip } from '../../scripts/accuracy/compareClip.ts';
import type { BodyChecks } from '../../scripts/accuracy/bodyChecks.ts';
import { errorSeries } from '../../scripts/accuracy/errorSeries.ts';
import { TURN_CLASSES } from '../../scripts/accuracy/measures.ts';
import type { MeasuredClip } from '../../scripts/accuracy/measuredClip.ts';
import { fullReport } from '../../scripts/accuracy/report.ts';
import { tally } from '../../scripts/accuracy/tally.ts';
import type { Truth } from '../../scripts/accuracy/truthFile.ts';
import { aboutY, mul, type Quat } from '../../scripts/clips/motion/rotation.ts';
import { clipNamed } from '../../scripts/clips/clips.ts';
import { truthOf } from '../../scripts/clips/truth.ts';
import { JOINT, JOINT_COUNT } from '../../src/motion/joints.ts';
import type { Motion } from '../../src/motion/motion.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { LANDMARK_COUNT } from '../../src/pose/landmarks.ts';
import type { Track } from '../../src/pose/track.ts';
import { faultlessTrack } from './faultlessTrack.ts';

const truth = truthOf(clipNamed('squat')) as unknown as Truth;
const RAW = { captureFactor: 1, mirror: false, cutoffHz: 0 };
const track = faultlessTrack(truth, 35);
const motion = trackToMotion(track, RAW);

/** The same motion with its picture of frame i + late shown in frame i's place. */
function late(whole: Motion, frames: number): Motion {
  const rotations = whole.rotations.slice();
  const size = JOINT_COUNT * 4;
  for (let i = whole.timesS.length - 1; i >= 0; i -= 1) {
    const from = Math.max(0, i - frames);
    rotations.set(whole.rotations.subarray(from * size, (from + 1) * size), i * size);
  }
  return { ...whole, rotations };
}

describe('the comparison of a clip', () => {
  it('finds nothing wrong with a faultless measurement', () => {
    const series = errorSeries(truth, motion);
    for (const joint of JOINT_CLASSES) {
      // As in truthBody.test.ts: 32-bit landmarks.
      expect(tally(series, [joint]).all.rms, joint).toBeLessThan(0.01);
    }
    const found = compareClip(truth, track, motion);
    expect(found.posed).toBe(truth.frames);
    expect(found.mainJoint).toMatch(/Knee|Shoulder/);
    // Two squats.
    expect(found.timing.map((one) => one.lagFrames!.toFixed(3).replace('-', ''))).toEqual(['0.000', '0.000']);
  });

  it('reads whole turns where bent elbows show the axis, and finds a forearm that is rolled too far', () => {
    const bent = truthOf(clipNamed('curl-front-odile')) as unknown as Truth;
    const seen = trackToMotion(faultlessTrack(bent, -10), RAW);
    for (const turn of ['shoulder, whole turn', 'forearm roll', 'wrist, whole turn'] as const) {
      // An elbow of 10 degrees is bent enough for the axis to within half a degree.
      expect(tally(errorSeries(bent, seen), [turn]).all.rms, turn).toBeLessThan(0.5);
    }
    const rolled: Motion = { ...seen, rotations: seen.rotations.slice() };
    for (let frame = 0; frame < bent.frames; frame += 1) {
      const at = (frame * JOINT_COUNT + JOINT.leftWrist) * 4;
      const [w, x, y, z] = mul(aboutY(20), [...seen.rotations.subarray(at, at + 4)] as unknown as Quat);
      rolled.rotations.set([w, x, y, z], at);
    }
    // One side of two is 20 degrees off: 20/√2 as a root mean square.
    expect(tally(errorSeries(bent, rolled), ['forearm roll']).all.rms).toBeCloseTo(20 / Math.SQRT2, 0);
  });

  it('finds a delay of two frames in the timing', () => {
    const found = compareClip(truth, track, late(motion, 2));
    for (const one of found.timing) expect(one.lagFrames).toBeCloseTo(2, 2);
    // Tried in steps of a tenth of a frame.
    expect(found.shiftFrames).toBeCloseTo(2, 6);
  });

  it('finds an offset of one joint in its class and in no other', () => {
    const bent: Motion = { ...motion, rotations: motion.rotations.slice() };
    for (let frame = 0; frame < truth.frames; frame += 1) {
      const at = (frame * JOINT_COUNT + JOINT.leftElbow) * 4;
      const half = Math.atan2(motion.rotations[at + 3]!, motion.rotations[at]!) + (6 * Math.PI) / 360;
      bent.rotations.set([Math.cos(half), 0, 0, Math.sin(half)], at);
    }
    const series = errorSeries(truth, bent);
    // One side of two is 6 degrees too much.
    expect(tally(series, ['elbow']).all.bias).toBeCloseTo(3, 2);
    expect(tally(series, ['knee']).all.rms).toBeLessThan(0.01);
  });

  it('counts what is flagged apart, and frames that were missed not at all', () => {
    const half: Track = { ...track, found: track.found.slice(), world: track.world.slice(), image: track.image.slice() };
    half.found.fill(0, 0, 40);
    half.world.fill(Number.NaN, 0, 40 * LANDMARK_COUNT * 3);
    half.image.fill(Number.NaN, 0, 40 * LANDMARK_COUNT * 3);
    const missed = trackToMotion(half, RAW);
    const found = compareClip(truth, half, missed);
    expect(found.posed).toBe(truth.frames - 40);
    expect(tally(errorSeries(truth, missed), ['knee']).all.n).toBe(2 * (truth.frames - 40));
    expect(found.picture!.n).toBe(12 * (truth.frames - 40));

    const flagged: Motion = { ...motion, unsure: new Uint8Array(motion.unsure.length) };
    for (let frame = 0; frame < 30; frame += 1) flagged.unsure[frame * JOINT_COUNT + JOINT.leftKnee] = 1;
    const { unsure, still, moving, unsureShare } = tally(errorSeries(truth, flagged), ['knee']);
    expect(unsure.n).toBe(30);
    expect(still.n + moving.n).toBe(2 * truth.frames - 30);
    expect(unsureShare).toBeCloseTo(30 / (2 * truth.frames), 9);
  });

  it('refuses a clip of other frames', () => {
    const shifted: Truth = { ...truth, timesS: truth.timesS.map((t) => t + 0.02) };
    expect(() => compareClip(shifted, track, motion)).toThrow(/same frames/);
  });
});

describe('the report', () => {
  it('has a row for every class and half, names what is missing, and prints no NaN', () => {
    const checks: BodyChecks = {
      slideOfHeight: Number.NaN, boneSpread: 0, rootM: [0.1, 0, 0], pitchDeg: -0.01, rollDeg: 0, pitchSigmaDeg: 1, rollSigmaDeg: 1,
      contact: { found: 0, right: 0, standing: 0, caught: 0 },
    };
    const series = errorSeries(truth, motion);
    const clip: MeasuredClip = { name: 'squat', set: 'tuning', truth, track, fittedMotion: motion, rawMotion: motion, fitted: series, raw: series, checks };
    const text = fullReport([clip], 'heavy', 'Three clips are not there.');
    for (const name of [...JOINT_CLASSES, ...TURN_CLASSES]) {
      const rows = text.split('\n').filter((line) => line.startsWith(`| ${name} `));
      // Elbow and knee stand in the table of said errors too.
      expect(rows.slice(0, 2).map((line) => line.split('|')[2]!.trim()), name).toEqual(['tuning', 'reporting']);
    }
    expect(text).toContain('Three clips are not there.');
    expect(text).not.toMatch(/NaN|Infinity|undefined|-0\.0\b/);
  });
});
