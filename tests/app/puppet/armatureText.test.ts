import { expect, it } from 'vitest';
import { saysArmature } from '../../../src/app/state/armatureText.ts';
import { MARLA } from '../../../src/puppet/examples/human.ts';

it('an armature is told from a book that holds one', () => {
  expect(saysArmature(JSON.stringify(MARLA, null, 1))).toBe(true);
  expect(saysArmature(JSON.stringify({ ...MARLA, format: undefined }))).toBe(false);
  const { format, ...rest } = MARLA;
  expect(saysArmature(JSON.stringify({ ...rest, format }))).toBe(true);
  expect(saysArmature(JSON.stringify({ format: 'nudgebook-file', book: { armature: MARLA } }))).toBe(false);
  expect(saysArmature(`\uFEFF${JSON.stringify(MARLA)}`)).toBe(true);
  expect(saysArmature(`${JSON.stringify(MARLA)}${' '.repeat(2_000_000)}`)).toBe(true);
  expect(saysArmature('{"format": "nudgebook-armature", broken')).toBe(true);
  expect(saysArmature('flour')).toBe(false);
});
