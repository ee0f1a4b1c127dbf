/** Errors and doubts as they come out of takes. */
import { describe, expect, it } from 'vitest';
import { NO_CORRECTIONS } from '../../../src/motion/corrections/corrections.ts';
import { fitUnread } from '../fit/unread.ts';
import { JOINT, JOINT_COUNT, JOINT_NAMES, type JointName } from '../../../src/motion/joints.ts';
import { STATE_MISSING, type Motion } from '../../../src/motion/motion.ts';
import { readTrack, trackToMotion } from '../../../src/motion/trackToMotion.ts';
import { CALIBRATION } from '../../../src/motion/trust/calibration.ts';
import { JOINT_CLASS } from '../../../src/motion/trust/errorClasses.ts';
import { errorDegOf } from '../../../src/motion/trust/errorModel.ts';
import { jointTrust } from '../../../src/motion/trust/jointTrust.ts';
import { PLACED_DEG, TYPED_DEG } from '../../../src/motion/trust/handSet.ts';
import { TURN_PREDICTOR_COUNT, writeBend, writePredictors } from '../../../src/motion/trust/predictors.ts';
import { UNSURE_AT_LENS, UNSURE_BRIDGED, UNSURE_SWAPPED } from '../../../src/motion/trust/unsure.ts';
import { evenTimes, loseFrame, trackOf, turnX, turnZ, type FigurePose } from '../figure.ts';

const SETTINGS = { captureFactor: 1, mirror: false, cutoffHz: 6 };
const frames = 60;
const times = evenTimes(frames, 30);
/** A right arm that comes up toward the lens and goes down again; the left hangs. */
const track = trackOf([...times].map((t): FigurePose => ({
  rightShoulder: turnZ(1.5 * Math.sin((Math.PI * t) / 2) ** 2), rightElbow: 0.2, leftShoulder: turnX(0.3), leftElbow: 0.3, leftKnee: 0.1, rightKnee: 0.1,
})), times, { noiseM: 0.004, seed: 3 });
for (const t of [30, 31]) loseFrame(track, t);
for (let t = 40; t < 50; t++) loseFrame(track, t);

const body = fitUnread(track, 1);
const fitted = trackToMotion(track, SETTINGS, body);
const alone = trackToMotion(track, SETTINGS);
const at = (t: number, joint: JointName): number => t * JOINT_COUNT + JOINT[joint];

describe.each([['fitted', fitted], ['landmarks alone', alone]] as const)('%s', (_, motion: Motion) => {
  it('has an error wherever there is an angle, and none elsewhere', () => {
    for (let t = 0; t < frames; t++) {
      JOINT_NAMES.forEach((name) => {
        const i = at(t, name);
        const shown = motion.state[i] !== STATE_MISSING && motion.observable[JOINT[name]] === 1;
        expect(Number.isFinite(motion.errorDeg[i]!), `${name} ${t}`).toBe(shown);
        if (!shown) expect(motion.unsure[i]).toBe(0);
        expect(Number.isFinite(motion.turnErrorDeg[i]!), `turn of ${name} ${t}`).toBe(shown && /Shoulder|Wrist|Hip|Ankle/.test(name));
      });
    }
  });

  it('says so where the pose was carried across a gap', () => {
    expect(motion.unsure[at(30, 'leftKnee')]! & UNSURE_BRIDGED).toBe(UNSURE_BRIDGED);
    expect(motion.unsure[at(20, 'leftKnee')]! & UNSURE_BRIDGED).toBe(0);
  });

  it('joints that share one turn have half of its error each', () => {
    expect(motion.errorDeg[at(5, 'spine')]).toBe(motion.errorDeg[at(5, 'chest')]);
    expect(motion.errorDeg[at(5, 'neck')]).toBe(motion.errorDeg[at(5, 'head')]);
  });

  it('an arm at the lens is less sure than the one that hangs', () => {
    expect(motion.errorDeg[at(28, 'rightShoulder')]!).toBeGreaterThan(motion.errorDeg[at(28, 'leftShoulder')]!);
  });
});

describe('in a mirror', () => {
  it.each([['fitted', body], ['landmarks alone', null]] as const)('%s: the sides change places, the errors stay', (_, figure) => {
    const plain = trackToMotion(track, SETTINGS, figure);
    const turned = trackToMotion(track, { ...SETTINGS, mirror: true }, figure);
    for (let t = 0; t < frames; t++) {
      for (const [a, b] of [['leftElbow', 'rightElbow'], ['rightShoulder', 'leftShoulder'], ['leftHip', 'rightHip'], ['head', 'head']] as const) {
        const [one, other] = [plain.errorDeg[at(t, a)]!, turned.errorDeg[at(t, b)]!];
        if (Number.isNaN(one)) expect(other).toBeNaN();
        // 32-bit numbers; speeds from mirrored rotations round differently
        else expect(Math.abs(one - other)).toBeLessThan(1e-3);
        expect(turned.unsure[at(t, b)]).toBe(plain.unsure[at(t, a)]);
        const [turn, otherTurn] = [plain.turnErrorDeg[at(t, a)]!, turned.turnErrorDeg[at(t, b)]!];
        if (Number.isNaN(turn)) expect(otherTurn).toBeNaN();
        else expect(Math.abs(turn - otherTurn)).toBeLessThan(1e-3);
      }
    }
  });
});

describe('what a person said', () => {
  it('a typed angle is sure at its moment and less and less so away from it', () => {
    const corrections = { ...NO_CORRECTIONS, angles: [{ timeS: times[20]!, joint: 'rightElbow', angleDeg: 12 }] } as const;
    const told = trackToMotion(track, SETTINGS, { ...body, corrections });
    const error = (t: number): number => told.errorDeg[at(t, 'rightElbow')]!;
    expect(error(20)).toBeCloseTo(Math.min(TYPED_DEG, fitted.errorDeg[at(20, 'rightElbow')]!), 5);
    expect(told.unsure[at(20, 'rightElbow')]).toBe(0);
    const ratio = (t: number): number => error(t) / fitted.errorDeg[at(t, 'rightElbow')]!;
    for (let t = 21; t < 29; t++) expect(ratio(t)).toBeGreaterThanOrEqual(ratio(t - 1) - 0.02);
    // half a second away a sixtieth of the difference of squares is left
    expect(ratio(5)).toBeGreaterThan(0.98);
    expect(told.errorDeg[at(20, 'leftElbow')]).toBe(fitted.errorDeg[at(20, 'leftElbow')]);
    // no word of a person's is about the turn of a limb about its own bone
    expect(told.turnErrorDeg).toEqual(fitted.turnErrorDeg);
  });

  it('a joint put in the picture helps, but tells nothing of a limb at the lens; sides are the footage’s own', () => {
    const corrections = { ...NO_CORRECTIONS, placed: [{ timeS: times[8]!, landmark: 'leftElbow', x: 0.5, y: 0.5 }] } as const;
    const told = trackToMotion(track, { ...SETTINGS, mirror: true }, { ...body, corrections });
    const before = trackToMotion(track, { ...SETTINGS, mirror: true }, body);
    const i = at(8, 'rightElbow');
    const atLens = (before.unsure[i]! & UNSURE_AT_LENS) !== 0;
    expect(told.errorDeg[i]!).toBeCloseTo(atLens ? before.errorDeg[i]! : Math.min(PLACED_DEG, before.errorDeg[i]!), 5);
    expect(told.errorDeg[at(8, 'leftElbow')]).toBe(before.errorDeg[at(8, 'leftElbow')]);
  });

  it('doubtful swaps are told at the limbs they touch, repaired ones are not', () => {
    const swaps = [
      { fromS: times[10]!, toS: times[12]!, part: 'legs', state: 'doubtful' }, { fromS: times[14]!, toS: times[16]!, part: 'all', state: 'repaired' },
    ] as const;
    const told = trackToMotion(track, SETTINGS, { ...body, swaps });
    const doubtful = (t: number, joint: JointName): boolean => (told.unsure[at(t, joint)]! & UNSURE_SWAPPED) !== 0;
    expect([doubtful(11, 'leftKnee'), doubtful(11, 'rightAnkle'), doubtful(11, 'leftElbow'), doubtful(11, 'head'), doubtful(15, 'leftKnee'), doubtful(13, 'leftKnee')])
      .toEqual([true, true, false, false, false, false]);
  });
});

describe('the turn about the bone', () => {
  it.each([['fitted', body], ['landmarks alone', null]] as const)('%s: has the error that its model gives for its predictors', (_, figure) => {
    const { motion, source } = readTrack(track, SETTINGS, figure);
    const { turnErrorDeg } = jointTrust(source, motion.state);
    // the track is of the full model, for which there is no reader
    const model = CALIBRATION.turn[figure === null ? 'alone' : 'fitted'];
    const x = new Float64Array(TURN_PREDICTOR_COUNT);
    for (let t = 0; t < frames; t++) {
      JOINT_CLASS.forEach(({ turnClass }, joint) => {
        const i = t * JOINT_COUNT + joint;
        if (turnClass < 0 || motion.state[i] === STATE_MISSING) return;
        writePredictors(source, t, joint, x);
        writeBend(motion.rotations, t, joint, x);
        expect(turnErrorDeg[i]!).toBeCloseTo(errorDegOf(model, turnClass, x), 4);
      });
    }
  });
});

describe('the ground that smoothing leaves alone', () => {
  it('gives the same errors and doubts as all worked out anew', () => {
    const { motion, source } = readTrack(track, SETTINGS, body);
    expect(source.ground).not.toBeNull();
    const anew = jointTrust({ ...source, ground: null }, motion.state);
    const ready = jointTrust(source, motion.state);
    expect(ready.errorDeg).toEqual(anew.errorDeg);
    expect(ready.unsure).toEqual(anew.unsure);
    expect(ready.turnErrorDeg).toEqual(anew.turnErrorDeg);
    expect(readTrack(track, SETTINGS, null).source.ground).toBeNull();
  });
});
