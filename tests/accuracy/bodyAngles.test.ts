/** Angles of made-up bodies whose answer is known without the code. */
import { describe, expect, it } from 'vitest';
import { ANGLE_NAMES, bodyAngles, CLASS_OF, JOINT_CLASSES } from '../../scripts/accuracy/bodyAngles.ts';
import { direction, type Segments, trunkAxes, type TrunkAxes } from '../../scripts/accuracy/segments.ts';
import { aboutX, aboutY, aboutZ, chain, turn, type Quat, type Vec3 } from '../../scripts/clips/motion/rotation.ts';

const DOWN: Vec3 = [0, -1, 0];
const HANGING = { upperArm: DOWN, forearm: DOWN, thigh: DOWN, shank: DOWN };
/** Upright, arms hanging, X forward, Y up, Z to the right. */
const UPRIGHT: TrunkAxes = { up: [0, 1, 0], right: [0, 0, 1] };
const STANDING: Segments = { pelvis: UPRIGHT, chest: UPRIGHT, face: [1, 0, 0], left: HANGING, right: HANGING };

const inSideView = (degrees: number): Vec3 => turn(aboutZ(degrees), DOWN);

const tipped = (axes: TrunkAxes, by: Quat): TrunkAxes => ({ up: turn(by, axes.up), right: turn(by, axes.right) });

function turned(body: Segments, by: Quat): Segments {
  const limb = (l: Segments['left']): Segments['left'] =>
    ({ upperArm: turn(by, l.upperArm), forearm: turn(by, l.forearm), thigh: turn(by, l.thigh), shank: turn(by, l.shank) });
  return {
    pelvis: tipped(body.pelvis, by), chest: tipped(body.chest, by),
    face: turn(by, body.face), left: limb(body.left), right: limb(body.right),
  };
}

// Products of exact sines: only rounding is allowed for.
const DIGITS = 9;

describe('angles from segment directions', () => {
  it('are all 0 for a body that stands upright with hanging arms', () => {
    for (const [name, value] of Object.entries(bodyAngles(STANDING))) expect(value, name).toBeCloseTo(0, DIGITS);
  });

  it('tell the fold of elbow and knee', () => {
    const body = { ...STANDING, right: { ...HANGING, forearm: inSideView(70), shank: inSideView(-35) } };
    expect(bodyAngles(body).rightElbow).toBeCloseTo(70, DIGITS);
    expect(bodyAngles(body).rightKnee).toBeCloseTo(35, DIGITS);
    expect(bodyAngles(body).leftElbow).toBeCloseTo(0, DIGITS);
  });

  it('tell how far an arm is raised, forward or sideways alike, against the trunk and not against the plumb line', () => {
    const forward = { ...STANDING, left: { ...HANGING, upperArm: inSideView(120) } };
    const sideways = { ...STANDING, left: { ...HANGING, upperArm: turn(aboutX(120), DOWN) } };
    expect(bodyAngles(forward).leftShoulder).toBeCloseTo(120, DIGITS);
    expect(bodyAngles(sideways).leftShoulder).toBeCloseTo(120, DIGITS);
    expect(bodyAngles({ ...STANDING, chest: tipped(UPRIGHT, aboutZ(-30)) }).leftShoulder).toBeCloseTo(30, DIGITS);
  });

  it('tell hip flexion with its sign and leave spreading out of it', () => {
    const body = { ...STANDING, left: { ...HANGING, thigh: inSideView(80) }, right: { ...HANGING, thigh: inSideView(-15) } };
    expect(bodyAngles(body).leftHip).toBeCloseTo(80, DIGITS);
    expect(bodyAngles(body).rightHip).toBeCloseTo(-15, DIGITS);
    const spread = { ...STANDING, right: { ...HANGING, thigh: turn(aboutX(-25), DOWN) } };
    expect(bodyAngles(spread).rightHip).toBeCloseTo(0, DIGITS);
    // The pelvis's own lean counts: the same thigh in a pelvis tipped forward by 20 degrees is 20 degrees more bent.
    expect(bodyAngles({ ...body, pelvis: tipped(UPRIGHT, aboutZ(-20)) }).leftHip).toBeCloseTo(100, DIGITS);
  });

  it('tell lean, nod and turn', () => {
    expect(bodyAngles(turned(STANDING, aboutZ(-20))).trunk).toBeCloseTo(20, DIGITS);
    expect(bodyAngles(turned(STANDING, aboutX(20))).trunk).toBeCloseTo(20, DIGITS);
    expect(bodyAngles({ ...STANDING, face: turn(aboutZ(25), [1, 0, 0]) }).headNod).toBeCloseTo(25, DIGITS);
    const left = bodyAngles({ ...STANDING, face: turn(chain(aboutY(40), aboutZ(10)), [1, 0, 0]) });
    expect(left.headTurn).toBeCloseTo(40, DIGITS);
    expect(left.headNod).toBeCloseTo(10, DIGITS);
  });

  it('do not depend on where the body faces, and only the lean on how it stands to the plumb line', () => {
    const body: Segments = { ...STANDING, left: { upperArm: inSideView(40), forearm: inSideView(90), thigh: inSideView(60), shank: inSideView(10) } };
    const { trunk: lean, ...rest } = bodyAngles(turned(body, chain(aboutY(130), aboutX(20), aboutZ(-33))));
    const { trunk: upright, ...before } = bodyAngles(body);
    for (const name of ANGLE_NAMES) if (name !== 'trunk') expect(rest[name], name).toBeCloseTo(before[name], DIGITS);
    expect(upright).toBeCloseTo(0, DIGITS);
    expect(lean).toBeGreaterThan(30);
  });

  it('take the line of hips or shoulders as it is and square the trunk to it', () => {
    const axes = trunkAxes(direction([0, 0, 0], [0, 0.3, 0.95]), [0, 1, 0]);
    expect(axes.up[0]).toBeCloseTo(0, DIGITS);
    expect(axes.up[1] * axes.right[1] + axes.up[2] * axes.right[2]).toBeCloseTo(0, DIGITS);
    expect(Math.hypot(...axes.up)).toBeCloseTo(1, DIGITS);
    expect(axes.up[1]).toBeGreaterThan(0);
  });

  it('stay unknown where a direction is unknown', () => {
    const lost = direction([1, 2, 3], [1, 2, 3]);
    const angles = bodyAngles({ ...STANDING, left: { ...HANGING, forearm: lost } });
    expect(angles.leftElbow).toBeNaN();
    expect(angles.rightElbow).toBeCloseTo(0, DIGITS);
  });

  it('belong to a class each', () => {
    expect(new Set(ANGLE_NAMES.map((name) => CLASS_OF[name]))).toEqual(new Set(JOINT_CLASSES));
  });
});
