/** The plane in which a limb bends, where the limb is straight: no flips, and the plane of the frames around. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { JOINT_COUNT, type JointName } from '../../src/motion/joints.ts';
import { READOUTS, readoutSeries } from '../../src/motion/readouts/catalogue.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { angleBetween, multiply, type Quat } from '../../src/numeric/quaternion.ts';
import { trackFromJson } from '../../src/pose/trackJson.ts';
import { evenTimes, figure, jointAt, trackOf, turnX, turnY, turnZ, type FigurePose } from './figure.ts';

const FPS = 30;
const DEG = Math.PI / 180;

function largestStepDeg(rotations: Float64Array, frames: number, joint: JointName): number {
  let largest = 0;
  for (let t = 1; t < frames; t++) {
    largest = Math.max(largest, angleBetween(jointAt(rotations, t - 1, joint), jointAt(rotations, t, joint)));
  }
  return largest / DEG;
}

describe('a limb that passes through straight', () => {
  // bends 60°, stretches for half a second, bends again, with the arm held 40° outward and turned about its bone
  const frames = 90;
  const flexion = (t: number): number => 60 * DEG * Math.max(0, (0.5 + Math.cos((2 * Math.PI * t) / 45)) / 1.5) ** 2;
  const shoulder: Quat = multiply(turnX(-40 * DEG), turnY(35 * DEG));
  const hip: Quat = multiply(turnZ(50 * DEG), turnY(20 * DEG));
  const poses = Array.from({ length: frames }, (_, t): FigurePose => ({
    rightShoulder: shoulder, rightElbow: flexion(t), leftHip: hip, leftKnee: flexion(t), leftElbow: 1, rightKnee: 0.9,
  }));

  it('keeps the plane of the bent frames, without noise', () => {
    const { rotations } = trackToMotion(trackOf(poses, evenTimes(frames, FPS)), { captureFactor: 1, mirror: false, cutoffHz: 0 });
    for (const [joint, truth] of [['rightShoulder', shoulder], ['leftHip', hip]] as const) {
      for (let t = 0; t < frames; t++) {
        // the faint prior pulls a little in the middle of the straight half second, 0.25 s from any evidence
        expect(angleBetween(jointAt(rotations, t, joint), truth) / DEG, `${joint} ${t}`).toBeLessThan(8);
      }
    }
  });

  it('does not flip when the landmarks tremble', () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const track = trackOf(poses, evenTimes(frames, FPS), { noiseM: 0.006, seed });
      const { rotations } = trackToMotion(track, { captureFactor: 1, mirror: false, cutoffHz: 6 });
      for (const joint of ['rightShoulder', 'leftHip'] as const) {
        // 6 mm of noise on a bone of 25 cm is over 2° a frame before smoothing; a flip would be 180°
        expect(largestStepDeg(rotations, frames, joint), `${joint}, seed ${seed}`).toBeLessThan(12);
      }
    }
  });
});

describe('a rendered performer whose arm is straight for a second', () => {
  const shipped = JSON.parse(readFileSync(new URL('../../src/app/demo/one-leg-reach.track.json', import.meta.url), 'utf8')) as { track: unknown };
  const track = trackFromJson(shipped.track);
  it.each([['fitted', true], ['landmarks alone', false]] as const)('never flips, %s', (_, fitted) => {
    const { rotations } = trackToMotion(track, { captureFactor: 1, mirror: false, cutoffHz: 6 }, fitted ? fitTake(track, 1) : null);
    for (const joint of ['leftShoulder', 'rightShoulder', 'leftHip', 'rightHip'] as const) {
      // the reach turns an upper arm by up to 6° a frame, and the plane found anew after a straight second comes within some frames; a flip is 180°
      expect(largestStepDeg(rotations, track.timesS.length, joint), joint).toBeLessThan(25);
    }
    for (const { id } of READOUTS.filter((readout) => readout.id.endsWith('.twist') && readout.joint.endsWith('Shoulder'))) {
      const { deg } = readoutSeries({ rotations, state: new Uint8Array(track.timesS.length * JOINT_COUNT) }, READOUTS.find((readout) => readout.id === id)!);
      expect(Math.max(...deg.slice(1).map((value, t) => Math.abs(value - deg[t]!))), id).toBeLessThan(25);
    }
  }, 30_000);
});

describe('limbs that never bend', () => {
  it('hold still where the prior has nothing to say: arms straight up', () => {
    const frames = 40;
    const up = Array.from({ length: frames }, (_, t): FigurePose => ({
      rightShoulder: turnZ((178 + 4 * Math.sin(t / 6)) * DEG), leftShoulder: turnX(180 * DEG),
    }));
    const track = trackOf(up, evenTimes(frames, FPS), { noiseM: 0.003, seed: 7 });
    const { rotations } = trackToMotion(track, { captureFactor: 1, mirror: false, cutoffHz: 6 });
    for (const joint of ['rightShoulder', 'leftShoulder'] as const) {
      expect(rotations.every(Number.isFinite)).toBe(true);
      expect(largestStepDeg(rotations, frames, joint), joint).toBeLessThan(20);
    }
  });

  it('hang straight with the crease of the elbow to the front and the knee to the front', () => {
    const { rotations } = trackToMotion(
      trackOf([{}, {}, {}], [0, 0.1, 0.2], { noiseM: 0 }), { captureFactor: 1, mirror: false, cutoffHz: 0 },
    );
    for (const joint of ['leftShoulder', 'rightShoulder', 'leftHip', 'rightHip'] as const) {
      expect(angleBetween(jointAt(rotations, 1, joint), figure({}).rotations[joint])).toBeLessThan(1e-4);
    }
  });
});
