import { describe, expect, it } from 'vitest';
import { angleJoint, CORRECTABLE, limbOf, PLACEABLE } from '../../src/app/corrections/correctable.ts';
import { currentAngleDeg } from '../../src/app/corrections/currentAngle.ts';
import { place, sayContact, toggleDepthFlip, toggleSwap, typeAngle, unplace, untypeAngle } from '../../src/app/corrections/edits.ts';
import { listCorrections } from '../../src/app/corrections/listed.ts';
import { contactSpan, runAround } from '../../src/app/corrections/spans.ts';
import { byHandAt, standingAt } from '../../src/app/ladder/handMarks.ts';
import { NO_CORRECTIONS } from '../../src/motion/corrections/corrections.ts';
import type { FittedBody } from '../../src/motion/fit/fittedBody.ts';
import { LANDMARK, type LandmarkName } from '../../src/pose/landmarks.ts';

describe('what can be put right', () => {
  it('is every joint of the figure, and trunk and head by their angle', () => {
    expect(PLACEABLE).toHaveLength(12);
    expect(new Set(CORRECTABLE).size).toBe(15);
    expect(angleJoint('leftElbow')).toBe('leftElbow');
    expect(angleJoint('leftWrist')).toBeNull();
    expect(angleJoint('spine')).toBe('spine');
  });

  it('knows the limb of a joint, and the bone that ends in it', () => {
    expect(limbOf('leftShoulder')).toEqual({ limb: 'leftArm', bone: 'both' });
    expect(limbOf('rightElbow')).toEqual({ limb: 'rightArm', bone: 'upper' });
    expect(limbOf('leftAnkle')).toEqual({ limb: 'leftLeg', bone: 'lower' });
    expect(limbOf('head')).toBeNull();
  });
});

describe('an act of correcting', () => {
  it('puts a joint once into a frame, and takes it back', () => {
    const once = place(NO_CORRECTIONS, 1, 'leftElbow', 0.4, 0.5);
    const again = place(place(once, 1.0005, 'leftElbow', 0.41, 0.5), 0.5, 'leftElbow', 0.3, 0.3);
    expect(again.placed.map((p) => [p.timeS, p.x])).toEqual([[0.5, 0.3], [1.0005, 0.41]]);
    expect(place(NO_CORRECTIONS, 1, 'leftElbow', 7, -7).placed[0]).toMatchObject({ x: 2, y: -1 });
    expect(unplace(once, 1, 'leftElbow')).toEqual(NO_CORRECTIONS);
    expect(unplace(once, 1, 'rightElbow')).toEqual(once);
  });

  it('types an angle once for a frame, and takes it back', () => {
    const typed = typeAngle(typeAngle(NO_CORRECTIONS, 1, 'leftKnee', 10), 1, 'leftKnee', 12);
    expect(typed.angles).toEqual([{ timeS: 1, joint: 'leftKnee', angleDeg: 12 }]);
    expect(untypeAngle(typed, 1, 'leftKnee')).toEqual(NO_CORRECTIONS);
  });

  it('turns a limb over, and back when it is asked for within the same span', () => {
    const flip = { limb: 'leftArm', bone: 'lower', fromS: 1, toS: 2 } as const;
    const turned = toggleDepthFlip(NO_CORRECTIONS, flip, 1.5);
    expect(turned.depthFlips).toEqual([flip]);
    expect(toggleDepthFlip(turned, { ...flip, fromS: 1.2 }, 1.5)).toEqual(NO_CORRECTIONS);
    expect(toggleDepthFlip(turned, { ...flip, bone: 'upper' }, 1.5).depthFlips).toHaveLength(2);
    expect(toggleDepthFlip(turned, { ...flip, fromS: 3, toS: 4 }, 3.5).depthFlips).toHaveLength(2);
  });

  it('says a swap, and a found one that is none, apart from each other', () => {
    const word = { fromS: 1, toS: 2, part: 'legs', swapped: true } as const;
    const said = toggleSwap(toggleSwap(NO_CORRECTIONS, word, 1), { ...word, swapped: false }, 1);
    expect(said.swaps).toHaveLength(2);
    expect(toggleSwap(said, word, 2).swaps).toEqual([{ ...word, swapped: false }]);
  });

  it('cuts back what was said of the same foot before', () => {
    const all = sayContact(NO_CORRECTIONS, { foot: 'left', fromS: 0, toS: 9, stands: true });
    const inner = sayContact(all, { foot: 'left', fromS: 3, toS: 4, stands: false }).contacts;
    expect(inner.map((c) => [Math.round(c.fromS), Math.round(c.toS), c.stands])).toEqual([[0, 3, true], [3, 4, false], [4, 9, true]]);
    expect(sayContact(all, { foot: 'right', fromS: 3, toS: 4, stands: false }).contacts).toHaveLength(2);
    expect(sayContact(all, { foot: 'left', fromS: 0, toS: 9, stands: false }).contacts).toHaveLength(1);
  });

  it('is listed in order of time, and each can be taken back alone', () => {
    let c = typeAngle(place(NO_CORRECTIONS, 2, 'leftElbow', 0.4, 0.5), 1, 'leftKnee', 12);
    c = { ...c, camera: { ...c.camera, pitchDeg: 3 }, slate: { kind: 'none' } };
    c = sayContact(c, { foot: 'left', fromS: 1.5, toS: 1.7, stands: false });
    const list = listCorrections(c);
    expect(list.map(({ fromS }) => fromS)).toEqual([null, null, 1, 1.5, 2]);
    expect(list.every(({ words }) => words.length > 5)).toBe(true);
    expect(new Set(list.map(({ key }) => key)).size).toBe(5);
    expect(list.reduce((now, { remove }) => remove(now), c)).toEqual(NO_CORRECTIONS);
  });
});

/** Five frames; the left forearm leaves the picture's plane in frames 1 to 3; the left foot stands in frames 0 and 1. */
function body(points: Partial<Record<LandmarkName, readonly [number, number, number]>> = {}): FittedBody {
  const boneInPlane = new Float64Array(5 * 8).fill(1);
  for (const t of [1, 2, 3]) boneInPlane[t * 8 + 1] = 0.6;
  const contacts = Uint8Array.from([1, 1, 1, 1, 0, 1, 0, 1, 0, 1]);
  const pointsM = new Float64Array(5 * 99);
  for (const [name, point] of Object.entries(points)) pointsM.set(point, LANDMARK[name as LandmarkName] * 3);
  return { timesS: Float64Array.from([0, 0.1, 0.2, 0.3, 0.4]), boneInPlane, contacts, pointsM } as unknown as FittedBody;
}

describe('the span of an act', () => {
  it('runs as far as something holds, and is the frame alone where it does not', () => {
    expect(runAround([0, 1, 2, 3, 4], 2, (f) => f > 0 && f < 4)).toEqual({ fromS: 1, toS: 3 });
    expect(runAround([0, 1, 2], 1, () => false)).toEqual({ fromS: 1, toS: 1 });
  });

  it('is, for a foot, as long as it goes on standing or being free', () => {
    expect(contactSpan(body(), 0, 'left')).toEqual({ fromS: 0, toS: 0.1, stands: true });
    expect(contactSpan(body(), 3, 'left')).toEqual({ fromS: 0.2, toS: 0.4, stands: false });
  });
});

describe('the angle that stands in the field', () => {
  // Stage axes: X to the camera, Y up, Z to the left of the picture; a performer who faces the lens has the left side at −Z.
  const standing = {
    leftShoulder: [0, 0.5, -0.2], rightShoulder: [0, 0.5, 0.2], leftHip: [0, 0, -0.1], rightHip: [0, 0, 0.1],
    leftElbow: [0.3, 0.5, -0.2], leftWrist: [0.3, 0.8, -0.2], leftKnee: [0.4, 0, -0.1], leftAnkle: [0.4, -0.4, -0.1],
    rightKnee: [-0.1, -0.4, 0.1], rightAnkle: [-0.2, -0.8, 0.1],
  } as const;
  it('is what the rule of each joint says', () => {
    const b = body(standing);
    expect(currentAngleDeg(b, 0, 'leftElbow')).toBeCloseTo(90, 6);
    expect(currentAngleDeg(b, 0, 'leftShoulder')).toBeCloseTo(90, 6);
    expect(currentAngleDeg(b, 0, 'leftHip')).toBeCloseTo(90, 6);
    expect(currentAngleDeg(b, 0, 'rightHip')).toBeCloseTo(-Math.atan2(1, 4) * 180 / Math.PI, 6);
    expect(currentAngleDeg(b, 0, 'leftKnee')).toBeCloseTo(90, 6);
    expect(currentAngleDeg(b, 0, 'rightKnee')).toBeCloseTo(0, 6);
    expect(currentAngleDeg(b, 0, 'spine')).toBeCloseTo(0, 6);
    expect(currentAngleDeg(b, 0, 'head')).toBeNull();
    const leaning = body({ ...standing, leftShoulder: [0.5, 0.5, -0.2], rightShoulder: [0.5, 0.5, 0.2] });
    expect(currentAngleDeg(leaning, 0, 'spine')).toBeCloseTo(45, 6);
  });
});

describe('what the ladder says', () => {
  const plan = { stepCount: 3, sourceTimeS: Float64Array.from([0, 0.2, 0.4]) };
  it('of feet, with sides as the plan has them', () => {
    expect(standingAt(body(), false, plan)(1)).toEqual({ left: false, right: true });
    expect(standingAt(body(), true, plan)(1)).toEqual({ left: true, right: false });
    expect(standingAt(null, false, plan)(1)).toBeNull();
  });

  it('of corrections: a joint at its step, the rest over its span', () => {
    const c = sayContact(place(NO_CORRECTIONS, 0.19, 'leftElbow', 0.4, 0.5), { foot: 'left', fromS: 0.1, toS: 0.5, stands: false });
    expect([0, 1, 2].map(byHandAt(c, plan))).toEqual(['span', 'here', 'span']);
    expect([0, 1, 2].map(byHandAt(place(NO_CORRECTIONS, 3, 'leftElbow', 0.4, 0.5), plan))).toEqual([undefined, undefined, undefined]);
  });
});
