import { describe, expect, it } from 'vitest';
import { NudgebookError } from '../../src/errors.ts';
import type { Armature, Bone, Joint } from '../../src/puppet/armature.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { EXAMPLES } from '../../src/puppet/examples/all.ts';
import { MARLA } from '../../src/puppet/examples/human.ts';
import { ARMATURE_TEXT_LIMIT, checkArmature, parseArmature } from '../../src/puppet/parseArmature.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';

const ALL: readonly Armature[] = [STANDARD_ARMATURE, ...EXAMPLES.map(({ armature }) => armature)];

describe('armature files', () => {
  it.each(ALL)('$name goes out and comes back', (armature) => {
    expect(parseArmature(JSON.stringify(armature))).toEqual(armature);
    expect(parseArmature(`\uFEFF${JSON.stringify(armature, null, 2)}`)).toEqual(armature);
  });

  it('the standard figure has every joint, Marla is 280 mm tall', () => {
    expect(STANDARD_ARMATURE.joints).toHaveLength(19);
    expect(completeArmature(STANDARD_ARMATURE).heightMm).toBeCloseTo(300, 0);
    expect(completeArmature(MARLA).heightMm).toBeCloseTo(280, 6);
  });

  const with_ = (change: object): unknown => ({ ...MARLA, ...change });
  const bone = (change: Partial<Record<keyof Bone, unknown>>): unknown => with_({ bones: MARLA.bones.map((b, i) => (i === 1 ? { ...b, ...change } : b)) });
  const joint = (change: Partial<Record<keyof Joint, unknown>>): unknown => with_({ joints: MARLA.joints.map((j, i) => (i === 1 ? { ...j, ...change } : j)) });
  const cases: readonly (readonly [string, unknown, RegExp])[] = [
    ['a list', [], /must be an object with the fields format/],
    ['null', null, /must be an object with the fields format/],
    ['other format', with_({ format: 'rig' }), /format must be the text "nudgebook-armature", and is “rig”/],
    ['later version', with_({ version: 3 }), /version must be the number 1 or 2, and is 3/],
    ['no name', with_({ name: ' ' }), /name must be a text of 1 to 100 characters/],
    ['no joints field', with_({ joints: undefined }), /joints must be a list of 1 to 120 joints, and is missing/],
    ['empty bones', with_({ bones: [] }), /bones must be a list of 1 to 120 bones, and is an empty list/],
    ['a number as text', bone({ lengthMm: '32' }), /bones\[1\]\.lengthMm \(abdomen\) must be a number from 0\.1 to 4000 \(millimetres\), and is “32”/],
    ['a zero length', bone({ lengthMm: 0 }), /bones\[1\]\.lengthMm \(abdomen\) must be .* and is 0/],
    ['a length in kilometres', bone({ lengthMm: 1e6 }), /bones\[1\]\.lengthMm \(abdomen\) must be .* and is 1000000/],
    ['a direction of nothing', bone({ along: [0, 0, 0] }), /bones\[1\]\.along \(abdomen\) must be a direction .* and is \[0, 0, 0\]/],
    ['a mass below nothing', bone({ massG: -1 }), /bones\[1\]\.massG \(abdomen\) must be/],
    ['a sole of two corners', bone({ sole: { outlineMm: [[0, 0], [1, 1]], dropMm: 2 } }), /bones\[1\]\.sole\.outlineMm \(abdomen\) must be a list of 3 to 60 corners/],
    ['limits upside down', joint({ limitsDeg: { right: [60, -30] } }), /joints\[1\]\.limitsDeg\.right \(spine\) must be two numbers of degrees, the least first.* and is \[60, -30\]/],
    ['unknown kind', joint({ kind: 'rope' }), /joints\[1\]\.kind \(spine\) must be one of ball, hinge, swivel, wire, screw, and is “rope”/],
    ['a smallest move of nothing', joint({ smallestDeg: 0 }), /joints\[1\]\.smallestDeg \(spine\) must be a number from 0\.01 to 45/],
    ['joint as text', with_({ joints: ['pelvis'] }), /joints\[0\] must be an object with the fields name, parent, .* and is “pelvis”/],
    ['unknown parent', joint({ parent: 'pelvsi' }), /joints\[1\]\.parent of joint “spine” is the unknown bone “pelvsi”; known are null and pelvis/],
    ['unknown child', joint({ child: 'stomach' }), /joints\[1\]\.child of joint “spine” is the unknown bone “stomach”/],
    ['two joints for one bone', joint({ child: 'chest' }), /is “chest”, which already hangs on the joint “spine”/],
    ['two roots', joint({ parent: null }), /joints\[1\]\.parent is null, as that of “pelvis” is already/],
    ['a ring', with_({ joints: MARLA.joints.map((j) => (j.name === 'spine' ? { ...j, parent: 'chest' } : j)) }), /joints\[1\]\.parent makes a ring: “abdomen” carries “chest” carries “abdomen”/],
    ['all in a ring', with_({ joints: MARLA.joints.map((j) => (j.name === 'pelvis' ? { ...j, parent: 'chest' } : j)) }), /makes a ring/],
    ['duplicate', joint({ name: 'pelvis' }), /joints\[1\]\.name repeats “pelvis”/],
    ['a bone on nothing', with_({ bones: [...MARLA.bones, { name: 'tail', lengthMm: 9 }] }), /bones\[\d+\] “tail” hangs on no joint/],
    ['a screw without a thread', joint({ kind: 'screw' }), /joints\[1\]\.screw of joint “spine” is missing/],
    ['a thread without a screw', joint({ screw: { pitchMm: 0.5, leverMm: 5 } }), /belongs to the kind screw/],
    ['a thread that cannot reach', joint({ kind: 'screw', limitsDeg: { axis: [0, 120] }, screw: { pitchMm: 0.5, leverMm: 5 } }), /a thread reaches 80°/],
    ['a drive of no joint', with_({ drives: [{ joint: 'tail', from: null }] }), /drives\[0\]\.joint is the unknown joint “tail”/],
    ['a drive by nobody', with_({ drives: [{ joint: 'head', from: 'nose' }] }), /drives\[0\]\.from \(head\) must be null or one of pelvis, .* and is “nose”/],
    ['extra field', with_({ mass: 3 }), /unknown field “mass”; known are format, version/],
    ['extra field in a joint', joint({ limit: 3 } as object), /unknown field “limit” in joints\[1\]; known are name, parent/],
    ['version 1 with a later field', { format: 'nudgebook-armature', version: 1, name: 'x', heightMm: 200, joints: [{ name: 'tail', kind: 'ball' }] }, /joints\[0\]\.name must be one of pelvis, .* and is “tail”/],
    ['version 1 twice', { format: 'nudgebook-armature', version: 1, name: 'x', heightMm: 200, joints: [{ name: 'head', kind: 'ball' }, { name: 'head', kind: 'ball' }] }, /joints\[1\]\.name must be a name that stands there once/],
  ];
  it.each(cases)('%s is refused with its name', (_, value, sentence) => {
    const thrown = caught(() => checkArmature(value));
    expect(thrown.code).toBe('bad-armature');
    expect(thrown.message).toMatch(sentence);
    expect(thrown.tip).not.toBe('');
  });

  it('text that is not JSON, and a file of 40 MB', () => {
    expect(caught(() => parseArmature('{')).message).toMatch(/it is not JSON/);
    expect(caught(() => parseArmature(' '.repeat(40_000_000))).message).toMatch(`the file has 40000000 characters; the most is ${ARMATURE_TEXT_LIMIT}`);
  });
});

describe('an armature of version 1', () => {
  it('becomes the standard figure of its height, its rigid joints one with what carries them', () => {
    const old = { format: 'nudgebook-armature', version: 1, name: 'Stiff', heightMm: 200, joints: [{ name: 'pelvis', kind: 'ball' }, { name: 'rightElbow', kind: 'hinge' }, { name: 'head', kind: 'swivel' }] };
    const now = checkArmature(old);
    expect(now.joints.map(({ name, parent, child, kind }) => [name, parent, child, kind])).toEqual([
      ['pelvis', null, 'pelvis', 'ball'], ['head', 'pelvis', 'head', 'swivel'], ['rightElbow', 'pelvis', 'rightForearm', 'hinge'],
    ]);
    expect(checkArmature(JSON.parse(JSON.stringify(now)))).toEqual(now);
    // the elbow still hangs where it did: shoulder height less the upper arm, half the shoulders' width out
    const [x, y, z] = now.joints[2]!.offsetMm!;
    const scale = 200 / 1741;
    expect(x).toBeCloseTo(0, 1);
    expect(y).toBeCloseTo((515.5 - 281.7) * scale, 1);
    expect(z).toBeCloseTo(190 * scale, 1);
  });

  it('without a pelvis stands on a stand that nothing moves', () => {
    const now = checkArmature({ format: 'nudgebook-armature', version: 1, name: 'Arms', heightMm: 200, joints: [{ name: 'leftShoulder', kind: 'ball' }, { name: 'rightShoulder', kind: 'ball' }] });
    expect(completeArmature(now).drives.map(({ joint, from }) => [joint, from])).toEqual([
      ['stand', null], ['leftShoulder', 'leftShoulder'], ['rightShoulder', 'rightShoulder'],
    ]);
  });
});

function caught(run: () => unknown): NudgebookError {
  try {
    run();
  } catch (error) {
    if (error instanceof NudgebookError) return error;
    throw error;
  }
  throw new Error('nothing was thrown');
}
