/**
 * Ends a test run with one plain line of counts, readable by people and scripts alike.
 */
import process from 'node:process';
import type { Reporter, TestModule } from 'vitest/node';

export default class CountReporter implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly unknown[]): void {
    let passed = 0;
    let failed = unhandledErrors.length;
    let skipped = 0;
    for (const module of modules) {
      // A file that could not even be read fails as one test, or the count would hide it.
      failed += module.errors().length;
      for (const test of module.children.allTests()) {
        const { state } = test.result();
        if (state === 'passed') passed += 1;
        else if (state === 'failed') failed += 1;
        else skipped += 1;
      }
    }
    // Printed last of all, after the summary of the other reporter.
    process.on('exit', () => console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`));
  }
}
