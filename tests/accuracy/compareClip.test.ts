/** The whole comparison: no error where there is none, the right one where one is put in, and a word where nothing matches. */
import { describe, expect, it } from 'vitest';
import { agreement } from '../../scripts/accuracy/agreement.ts';
import { JOINT_CLASSES } from '../../scripts/accuracy/bodyAngles.ts';
import { compareClip } from '../../scripts/accuracy/compareClip.ts';
import { accuracyReport } from '../../scripts/accuracy/report.ts';
import type { Truth } from '../../scripts/accuracy/truthFile.ts';
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
    const found = compareClip(truth, track, motion);
    for (const joint of JOINT_CLASSES) {
      const { moving, still } = found.classes[joint];
      // As in truthBody.test.ts: 32-bit landmarks.
      expect(agreement([...moving, ...still])!.rmse, joint).toBeLessThan(0.01);
    }
    expect(found.posed).toBe(truth.frames);
    expect(found.mainJoint).toMatch(/Knee|Shoulder/);
    // Two squats.
    expect(found.timing.map((one) => one.lagFrames!.toFixed(3).replace('-', ''))).toEqual(['0.000', '0.000']);
  });

  it('finds a delay of two frames in the timing', () => {
    const found = compareClip(truth, track, late(motion, 2));
    for (const one of found.timing) expect(one.lagFrames).toBeCloseTo(2, 2);
    // Tried in steps of a tenth of a frame.
    expect(found.classes.knee.shiftFrames).toBeCloseTo(2, 6);
    expect(found.classes['shoulder elevation'].shiftFrames).toBeCloseTo(2, 6);
    expect(found.classes.elbow.shiftFrames).toBeNull();
  });

  it('finds an offset of one joint in its class and in no other', () => {
    const bent: Motion = { ...motion, rotations: motion.rotations.slice() };
    for (let frame = 0; frame < truth.frames; frame += 1) {
      const at = (frame * JOINT_COUNT + JOINT.leftElbow) * 4;
      const half = Math.atan2(motion.rotations[at + 3]!, motion.rotations[at]!) + (6 * Math.PI) / 360;
      bent.rotations.set([Math.cos(half), 0, 0, Math.sin(half)], at);
    }
    const { classes } = compareClip(truth, track, bent);
    // One side of two is 6 degrees too much.
    expect(agreement([...classes.elbow.moving, ...classes.elbow.still])!.bias).toBeCloseTo(3, 2);
    expect(agreement([...classes.knee.moving, ...classes.knee.still])!.rmse).toBeLessThan(0.01);
  });

  it('counts missed frames and leaves them out', () => {
    const half: Track = { ...track, found: track.found.slice(), world: track.world.slice(), image: track.image.slice() };
    half.found.fill(0, 0, 40);
    half.world.fill(Number.NaN, 0, 40 * LANDMARK_COUNT * 3);
    half.image.fill(Number.NaN, 0, 40 * LANDMARK_COUNT * 3);
    const found = compareClip(truth, half, trackToMotion(half, RAW));
    expect(found.posed).toBe(truth.frames - 40);
    const { moving, still } = found.classes.knee;
    expect(agreement([...moving, ...still])!.n).toBe(2 * (truth.frames - 40));
    expect(found.picture!.n).toBe(12 * (truth.frames - 40));
  });

  it('refuses a clip of other frames', () => {
    const shifted: Truth = { ...truth, timesS: truth.timesS.map((t) => t + 0.02) };
    expect(() => compareClip(shifted, track, motion)).toThrow(/same frames/);
  });
});

describe('the report', () => {
  it('has a row for every class of the clip and of all clips, and no NaN', () => {
    const text = accuracyReport([compareClip(truth, track, motion)], 'how', () => truth.timesS);
    for (const joint of JOINT_CLASSES) expect(text.split('\n').filter((line) => line.includes(`| ${joint}`)).length, joint).toBe(2);
    expect(text).not.toMatch(/NaN|Infinity|undefined|-0\.0\b/);
  });
});
