import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

const POSING = 'tests/browser/**/*.posing.test.ts';

const APP = 'tests/app/**/*.test.{ts,tsx}';

const unit = {
  environment: 'node' as const,
  // As many as there are cores; left to itself it would leave one idle, which of two is half.
  maxWorkers: availableParallelism(),
  // No test is one of speed: a limit is there to end what hangs, also on a machine that is slow or busy.
  testTimeout: 180_000,
  sequence: { groupOrder: 1 },
};

/** Tests in a real browser, against the built app. */
const inBrowser = {
  environment: 'node' as const,
  globalSetup: 'scripts/test/serveForTests.ts',
  testTimeout: 180_000,
  hookTimeout: 120_000,
};

/** One group after the other (`groupOrder`), so that nothing takes the cores from a browser whose answer is waited for. */
export default defineConfig({
  test: {
    reporters: ['default', './scripts/test/countReporter.ts'],
    projects: [
      {
        test: {
          ...unit,
          name: 'unit',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: ['tests/browser/**', APP],
          // The core keeps no state, so files may share what a worker has loaded; loading it anew for each took a quarter of the time.
          isolate: false,
        },
      },
      {
        // The app's stores are modules with state: each file has its own.
        test: { ...unit, name: 'unit-app', include: [APP] },
      },
      {
        test: {
          ...inBrowser,
          name: 'browser',
          include: ['tests/browser/**/*.test.ts'],
          exclude: [POSING],
          // Every file starts its own browser, whose page and workers fill the cores: one after the other is steadier.
          maxWorkers: 1,
          sequence: { groupOrder: 2 },
        },
      },
      {
        test: {
          ...inBrowser,
          name: 'browser-posing',
          include: [POSING],
          // A run of the pose engine fills all cores by itself.
          maxWorkers: 1,
          sequence: { groupOrder: 3 },
        },
      },
    ],
  },
});
