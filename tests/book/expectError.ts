/**
 * Catches the NudgebookError of a call, so that tests can look at its code and its sentence.
 */
import { expect } from 'vitest';
import { NudgebookError } from '../../src/errors.ts';

export function errorOf(job: () => unknown): NudgebookError {
  try {
    job();
  } catch (thrown) {
    expect(thrown).toBeInstanceOf(NudgebookError);
    return thrown as NudgebookError;
  }
  throw new Error('nothing was thrown');
}

export async function rejectionOf(job: Promise<unknown>): Promise<NudgebookError> {
  let value: unknown;
  try {
    value = await job;
  } catch (thrown) {
    expect(thrown).toBeInstanceOf(NudgebookError);
    return thrown as NudgebookError;
  }
  throw new Error(`nothing was thrown, it gave ${JSON.stringify(value)}`);
}
