import { describe, expect, test } from 'vitest';
import { parseCorrections, parseCorrectionsText } from '../../src/book/correctionsSchema.ts';
import { CORRECTION_LIMITS, countCorrections, NO_CORRECTIONS, type Corrections } from '../../src/motion/corrections/corrections.ts';
import { marlaBook } from './examples.ts';
import { errorOf } from './expectError.ts';

const full = marlaBook().corrections;
const withOne = (name: keyof Corrections, entry: unknown): unknown => ({ ...NO_CORRECTIONS, [name]: [entry] });
const elbow = { timeS: 1, landmark: 'leftElbow', x: 0.4, y: 0.5 };

describe('corrections from outside', () => {
  test('come back equal, and a file may leave fields out', () => {
    expect(parseCorrections(structuredClone(full))).toEqual(full);
    expect(parseCorrectionsText('{}')).toEqual(NO_CORRECTIONS);
    expect(parseCorrectionsText(JSON.stringify({ placed: [elbow] }))).toEqual({ ...NO_CORRECTIONS, placed: [elbow] });
    expect(countCorrections(full)).toEqual({ camera: 3, placed: 1, angles: 1, depthFlips: 1, swaps: 1, contacts: 1, slate: 1 });
  });

  test.each<[string, unknown, string]>([
    ['no object', [], 'Corrections are an object, and this is [].'],
    ['an unknown field', { ...NO_CORRECTIONS, joints: [] }, 'a field Nudgebook does not know: joints'],
    ['an unknown landmark', withOne('placed', { ...elbow, landmark: 'elbow' }), 'placed[0].landmark of the corrections is "elbow"'],
    ['a place far outside', withOne('placed', { ...elbow, x: 3 }), 'placed[0].x of the corrections is 3; allowed is a number from -1 to 2'],
    ['a time that is none', withOne('placed', { ...elbow, timeS: Number.NaN }), 'placed[0].timeS of the corrections is NaN; allowed is a number from 0 to 86400 seconds'],
    ['a time that never ends', withOne('contacts', { foot: 'left', fromS: 0, toS: Infinity, stands: true }), 'contacts[0].toS of the corrections is Infinity'],
    ['a joint that takes no angle', withOne('angles', { timeS: 1, joint: 'leftClavicle', angleDeg: 3 }), 'angles[0].joint of the corrections is "leftClavicle"'],
    ['an elbow bent backward', withOne('angles', { timeS: 1, joint: 'leftElbow', angleDeg: -10 }), 'angles[0].angleDeg of the corrections is -10; allowed is from 0 to 165 degrees for leftElbow'],
    ['a span that ends before it begins', withOne('depthFlips', { limb: 'leftArm', bone: 'both', fromS: 2, toS: 1 }), 'depthFlips[0].toS of the corrections is 1; allowed is a time from fromS (2) on'],
    ['an unknown limb', withOne('depthFlips', { limb: 'tail', bone: 'both', fromS: 0, toS: 1 }), 'depthFlips[0].limb of the corrections is "tail"; allowed is one of leftArm, rightArm, leftLeg, rightLeg'],
    ['a swap of no known part', withOne('swaps', { fromS: 0, toS: 1, part: 'hands', swapped: true }), 'swaps[0].part'],
    ['a foot that is none', withOne('contacts', { foot: 'third', fromS: 0, toS: 1, stands: true }), 'contacts[0].foot'],
    ['a camera upside down', { ...NO_CORRECTIONS, camera: { pitchDeg: 120, rollDeg: null, verticalFovDeg: null } }, 'camera.pitchDeg of the corrections is 120; allowed is a number from -89 to 89 degrees, or null'],
    ['a slate of no kind', { ...NO_CORRECTIONS, slate: { kind: 'maybe' } }, 'slate'],
    ['half a span of square elbows', { ...NO_CORRECTIONS, slate: { kind: 'given', straightFromS: 0, straightToS: 1, squareFromS: 1, squareToS: null } }, 'slate.squareToS of the corrections is null'],
    ['too many', { ...NO_CORRECTIONS, placed: Array.from({ length: CORRECTION_LIMITS.count + 1 }, () => elbow) }, 'allowed is a list of at most 2000 placed joints'],
  ])('%s is refused in words', (_, value, words) => {
    const error = errorOf(() => parseCorrections(value));
    expect(error.code).toBe('bad-corrections');
    expect(error.message).toContain(words);
    expect(error.tip).not.toBe('');
  });

  test('what is not JSON', () => {
    expect(errorOf(() => parseCorrectionsText('placed: []')).code).toBe('bad-corrections');
  });
});
