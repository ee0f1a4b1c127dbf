import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { parseArmature } from '../../src/puppet/parseArmature.ts';

it('the example in docs/armature.md opens', () => {
  const page = readFileSync(join(import.meta.dirname, '../../docs/armature.md'), 'utf8');
  const example = /```json\n([\s\S]*?)```/.exec(page)?.[1];
  expect(parseArmature(example ?? '').joints).toHaveLength(15);
});
