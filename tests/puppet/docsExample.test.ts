import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import { parseArmature } from '../../src/puppet/parseArmature.ts';
import { makePlan } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS } from '../../src/plan/settings.ts';
import { evenTimes, trackOf } from '../motion/figure.ts';

it('the example in docs/armature.md opens, is complete and plans without a complaint', () => {
  const page = readFileSync(join(import.meta.dirname, '../../docs/armature.md'), 'utf8');
  const example = /```json\n([\s\S]*?)```/.exec(page)?.[1];
  const armature = parseArmature(example ?? '');
  const complete = completeArmature(armature);
  expect(complete.joints).toHaveLength(18);
  expect(complete.totalMassG).toBeCloseTo(320, 6);
  expect(complete.heightMm).toBeCloseTo(280, 6);
  const times = evenTimes(30, 30);
  const plan = makePlan(trackOf([...times].map((t) => ({ leftElbow: 1 + t, rightElbow: 1, leftKnee: 1, rightKnee: 1 })), times), armature, DEFAULT_SETTINGS);
  expect(plan.joints.map(({ name }) => name)).toContain('jaw');
  expect(plan.warnings.filter((warning) => !warning.includes('smooth'))).toEqual([]);
});
