/**
 * Holds the house together: the folders on disk, the list that the linter enforces and the page that explains them.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ESLint } from 'eslint';
import tseslint from 'typescript-eslint';
import { describe, expect, it } from 'vitest';
import { LAYERS } from '../../scripts/layers.js';
import { PROJECT_FOLDER } from '../../scripts/serve/projectFolder.ts';

describe('the layers of src/', () => {
  it('are the folders on disk, no more and no less', () => {
    const folders = readdirSync(join(PROJECT_FOLDER, 'src'), { withFileTypes: true }).filter((e) => e.isDirectory()).map((e) => e.name);
    expect(folders.sort()).toEqual([...LAYERS].sort());
  });

  it('are each explained in DEVELOPERS.md', () => {
    const page = readFileSync(join(PROJECT_FOLDER, 'DEVELOPERS.md'), 'utf8');
    for (const layer of LAYERS) expect(page, layer).toContain(`\`${layer}/\``);
  });

  it('may not import downward: the linter says so', async () => {
    // Without the rules that need types: those of the layers need none, and reading the types of the whole project takes long.
    const eslint = new ESLint({ cwd: PROJECT_FOLDER, overrideConfig: tseslint.configs.disableTypeChecked });
    const complaints = async (file: string, code: string): Promise<string[]> => {
      const [result] = await eslint.lintText(code, { filePath: join(PROJECT_FOLDER, file), warnIgnored: true });
      return (result?.messages ?? []).map((m) => m.ruleId ?? m.message);
    };
    expect(await complaints('src/motion/joints.ts', "import { x } from '../plan/plan.ts';\nexport const y = x;\n")).toContain('no-restricted-imports');
    expect(await complaints('src/motion/joints.ts', "import { x } from 'react';\nexport const y = x;\n")).toContain('no-restricted-imports');
    expect(await complaints('src/plan/plan.ts', "import { x } from '../motion/joints.ts';\nexport const y = x;\n")).not.toContain('no-restricted-imports');
    expect(await complaints('src/motion/joints.ts', 'export const y = Math.random();\n')).toContain('no-restricted-properties');
  });
});
