import { describe, expect, it } from 'vitest';
import { NudgebookError } from '../../src/errors.ts';
import { MARLA } from '../../src/puppet/marla.ts';
import { ARMATURE_TEXT_LIMIT, checkArmature, parseArmature } from '../../src/puppet/parseArmature.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';

describe('armature files', () => {
  it.each([STANDARD_ARMATURE, MARLA])('$name goes out and comes back', (armature) => {
    expect(parseArmature(JSON.stringify(armature))).toEqual(armature);
    expect(parseArmature(`\uFEFF${JSON.stringify(armature, null, 2)}`)).toEqual(armature);
  });

  it('the standard figure has every joint, Marla is 280 mm tall', () => {
    expect(STANDARD_ARMATURE.joints).toHaveLength(19);
    expect(MARLA.heightMm).toBe(280);
  });

  const with_ = (change: object): unknown => ({ ...MARLA, ...change });
  const joint = (change: object): unknown => with_({ joints: [MARLA.joints[0], { ...MARLA.joints[1], ...change }] });
  const cases: readonly (readonly [string, unknown, RegExp])[] = [
    ['a list', [], /must be an object with format/],
    ['null', null, /must be an object with format/],
    ['other format', with_({ format: 'rig' }), /format must be the text "nudgebook-armature", and is “rig”/],
    ['later version', with_({ version: 2 }), /version must be the number 1, and is 2/],
    ['no name', with_({ name: ' ' }), /name must be a text of 1 to 100 characters/],
    ['height as text', with_({ heightMm: '280' }), /heightMm must be a number from 10 to 4000 \(millimetres\), and is “280”/],
    ['height in metres', with_({ heightMm: 0.28 }), /heightMm must be .* and is 0\.28/],
    ['no joints field', with_({ joints: undefined }), /joints must be a list of 1 to 19 joints, and is missing/],
    ['empty joints', with_({ joints: [] }), /joints must be a list of 1 to 19 joints, and is a list of 0/],
    ['too many joints', with_({ joints: Array.from({ length: 20 }, () => MARLA.joints[0]) }), /joints must be a list of 1 to 19/],
    ['unknown joint', joint({ name: 'tail' }), /joints\[1\]\.name must be one of pelvis, .*rightAnkle, and is “tail”/],
    ['unknown kind', joint({ kind: 'rope' }), /joints\[1\]\.kind must be one of hinge, ball, swivel, and is “rope”/],
    ['kind missing', joint({ kind: undefined }), /joints\[1\]\.kind must be .* and is missing/],
    ['joint as text', with_({ joints: ['pelvis'] }), /joints\[0\] must be an object with "name" and "kind", and is “pelvis”/],
    ['duplicate', joint({ name: 'pelvis' }), /joints\[1\]\.name repeats pelvis/],
    ['extra field', with_({ mass: 3 }), /unknown field “mass”; known are format, version/],
    ['extra field in a joint', joint({ limit: 3 }), /unknown field “limit” in joints\[1\]; known are name, kind/],
  ];
  it.each(cases)('%s is refused with its name', (_, value, sentence) => {
    const thrown = caught(() => checkArmature(value));
    expect(thrown.code).toBe('bad-armature');
    expect(thrown.message).toMatch(sentence);
    expect(thrown.tip).not.toBe('');
  });

  it('text that is not JSON, and text that is too long', () => {
    expect(caught(() => parseArmature('{')).message).toMatch(/it is not JSON/);
    expect(caught(() => parseArmature(' '.repeat(ARMATURE_TEXT_LIMIT + 1))).message).toMatch(/the most is 100000/);
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
