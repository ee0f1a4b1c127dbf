import js from '@eslint/js';
import reactHooks from 'eslint-plugin-react-hooks';
import tseslint from 'typescript-eslint';
import { LAYERS, PURE_LAYERS } from './scripts/layers.js';

/** For each layer: the folders it must not see (all that stand below it), as import patterns. */
const layerRules = LAYERS.map((layer, index) => ({
  files: [`src/${layer}/**/*.{ts,tsx}`],
  rules: {
    'no-restricted-imports': ['error', {
      patterns: [
        ...LAYERS.slice(index + 1).map((lower) => ({
          group: [`**/${lower}/*`, `**/${lower}/**`],
          message: `src/${layer} stands above src/${lower}: imports only go up the list in scripts/layers.js.`,
        })),
        // The command line needs the server and the browser that the tools start; nothing else may look there.
        { group: layer === 'cli' ? ['**/tests/**'] : ['**/scripts/**', '**/tests/**'], message: 'The app never imports its tools or tests.' },
        ...(PURE_LAYERS.includes(layer)
          ? [{ group: ['react', 'react-dom', 'react/*', 'd3', 'mediabunny', '@mediapipe/*', 'node:*', 'idb', 'zustand', 'zustand/*'],
               message: `src/${layer} is pure: it runs in a page, a worker and Node alike.` }]
          : []),
      ],
    }],
    ...(PURE_LAYERS.includes(layer)
      ? { 'no-restricted-properties': ['error',
          { object: 'Math', property: 'random', message: 'The core has no random source; pass one in.' },
          { object: 'Date', property: 'now', message: 'The core has no clock; pass the time in.' }] }
      : {}),
  },
}));

export default tseslint.config(
  { ignores: ['dist/', 'generated/', 'node_modules/', 'coverage/'] },
  js.configs.recommended,
  ...tseslint.configs.strict,
  {
    files: ['**/*.{ts,tsx}'],
    languageOptions: { parserOptions: { projectService: true, tsconfigRootDir: import.meta.dirname } },
    rules: {
      '@typescript-eslint/no-floating-promises': 'error',
      '@typescript-eslint/no-misused-promises': ['error', { checksVoidReturn: { attributes: false } }],
      '@typescript-eslint/consistent-type-imports': 'error',
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-explicit-any': 'error',
      'no-empty': ['error', { allowEmptyCatch: false }],
      eqeqeq: 'error',
    },
  },
  { files: ['src/**/*.tsx', 'src/app/**/*.ts'], plugins: { 'react-hooks': reactHooks }, rules: reactHooks.configs.recommended.rules },
  ...layerRules,
);
