/** Feet, bones, path and camera: nothing is wrong with the true body, and what is put wrong is found. */
import { describe, expect, it } from 'vitest';
import { bodyChecks } from '../../scripts/accuracy/bodyChecks.ts';
import { realChecks } from '../../scripts/accuracy/real/realChecks.ts';
import { skeletonPicture } from '../../scripts/accuracy/real/skeletonPicture.ts';
import { placeTruth } from '../../scripts/accuracy/truthBody.ts';
import type { Truth } from '../../scripts/accuracy/truthFile.ts';
import { clipNamed } from '../../scripts/clips/clips.ts';
import { aboutY, sub, turn } from '../../scripts/clips/motion/rotation.ts';
import { truthOf } from '../../scripts/clips/truth.ts';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import { JOINT, JOINT_COUNT } from '../../src/motion/joints.ts';
import { trackToMotion } from '../../src/motion/trackToMotion.ts';
import { LANDMARK, LANDMARK_COUNT, type LandmarkName } from '../../src/pose/landmarks.ts';
import { faultlessTrack } from './faultlessTrack.ts';

const clip = clipNamed('kneel-marla');
const truth = truthOf(clip) as unknown as Truth;

/** The true body in the place of a fitted one: only what the checks read. */
function trueBody(): FittedBody {
  const frames = truth.frames;
  const pointsM = new Float64Array(frames * LANDMARK_COUNT * 3);
  const rootM = new Float64Array(frames * 3);
  const contacts = new Uint8Array(frames * 2);
  for (let t = 0; t < frames; t += 1) {
    const body = placeTruth(truth, t);
    const hips = truth.rootM[t]!;
    for (const side of ['left', 'right'] as const) {
      for (const joint of ['Shoulder', 'Elbow', 'Wrist', 'Hip', 'Knee', 'Ankle'] as const) {
        const name: LandmarkName = `${side}${joint}`;
        pointsM.set(turn(aboutY(truth.camera.azimuthDeg), sub(body(name).position, hips)), (t * LANDMARK_COUNT + LANDMARK[name]) * 3);
      }
      pointsM.set([0, 1.55 - hips[1], 0], (t * LANDMARK_COUNT + LANDMARK[`${side}Eye`]) * 3);
    }
    rootM.set(turn(aboutY(truth.camera.azimuthDeg), hips), t * 3);
    contacts.set([truth.leftFootOnFloor[t]!, truth.rightFootOnFloor[t]!], t * 2);
  }
  const rad = Math.PI / 180;
  return {
    timesS: Float64Array.from(truth.timesS), pointsM, rootM, contacts, pxPerM: new Float64Array(frames).fill(300),
    camera: { pitchRad: truth.camera.pitchDownDeg * rad, rollRad: truth.camera.rollDeg * rad, pitchSigmaRad: 0, rollSigmaRad: 0, focalPx: truth.camera.focalPx, given: { pitch: false, roll: false, fov: false } },
  } as unknown as FittedBody;
}

describe('checks of a fitted body', () => {
  it('find nothing wrong with the true one', () => {
    const { slideOfHeight, boneSpread, rootM, pitchDeg, rollDeg, contact } = bodyChecks(truth, trueBody());
    // Truth files hold tenths of a millimetre and hundredths of a degree; the lifted foot counts as down within a millimetre.
    expect(slideOfHeight).toBeLessThan(0.001);
    expect(boneSpread).toBeLessThan(0.002);
    for (const m of rootM) expect(m).toBeLessThan(1e-3);
    expect(Math.abs(pitchDeg) + Math.abs(rollDeg)).toBeLessThan(0.01);
    expect(contact.right).toBe(contact.found);
    expect(contact.caught).toBe(contact.standing);
    expect(contact.standing).toBeGreaterThan(60);
  });

  it('find a foot that slides, a bone that grows, a camera that is tilted and a path that drifts', () => {
    const body = trueBody();
    for (let t = 0; t < 20; t += 1) {
      const at = (t * LANDMARK_COUNT + LANDMARK.leftAnkle) * 3;
      body.pointsM[at] = body.pointsM[at]! + 0.002 * t;
    }
    for (let t = 0; t < truth.frames; t += 1) body.rootM[t * 3 + 2] = body.rootM[t * 3 + 2]! + 0.05 * Math.min(1, t);
    const found = bodyChecks(truth, { ...body, camera: { ...body.camera, rollRad: 0 } });
    expect(found.slideOfHeight).toBeGreaterThan(0.01);
    expect(found.boneSpread).toBeGreaterThan(0.002);
    expect(found.rollDeg).toBeCloseTo(-6, 9);
    // All frames but the first are 5 cm off across.
    expect(found.rootM[2]).toBeCloseTo(0.05, 2);
    expect(found.rootM[0]).toBeLessThan(1e-3);
  });
});

describe('checks without a truth', () => {
  const track = faultlessTrack(truth, truth.camera.azimuthDeg);
  const motion = trackToMotion(track, { captureFactor: 1, mirror: false, cutoffHz: 0 });

  it('find a joint that flips, and none otherwise', () => {
    const calm = realChecks(track, trueBody(), motion, motion, true);
    expect(calm.flips).toBe(0);
    const flipped = { ...motion, rotations: motion.rotations.slice() };
    // Half a turn about the long axis in one frame: there and back are two flips.
    flipped.rotations.set([0, 0, 1, 0], (30 * JOINT_COUNT + JOINT.rightShoulder) * 4);
    const found = realChecks(track, trueBody(), motion, flipped, true);
    expect(found.flips).toBe(2);
    expect(found.largestTurn.joint).toBe('rightShoulder');
    expect(found.largestTurn.atS).toBeCloseTo(1, 1);
  });

  it('judge standing by the picture: the knees of the first second, not of the kneeling', () => {
    const { standing, fittedKnees } = realChecks(track, trueBody(), motion, motion, true);
    expect(standing).toBeGreaterThan(3);
    expect(standing).toBeLessThan(truth.frames / 2);
    // She stands with knees of some 9 degrees and steps apart with up to 44; kneeling they have 114.
    expect(fittedKnees.most).toBeLessThan(45);
    expect(realChecks(track, trueBody(), motion, motion, false).fittedKnees.most).toBeNaN();
  });

  it('draw a skeleton with the left limbs dashed and no figure that is not a number', () => {
    const svg = skeletonPicture(trueBody(), [0, 50], 'Two moments');
    expect(svg.match(/stroke-dasharray/g)).toHaveLength(2 * 2 * 8);
    expect(svg).toContain('<title>Two moments</title>');
    expect(svg).not.toMatch(/NaN|undefined/);
  });
});
