import { describe, expect, it } from 'vitest';
import { markBeside } from '../../../src/timing/marks/besideMark.ts';
import type { TimeMark } from '../../../src/timing/timingSettings.ts';

const marks = [1, 2, 4].map((filmS, k): TimeMark => ({ id: `m${k}`, sourceS: filmS, filmS, kind: 'placed', name: '', locked: false }));
const on = (fromS: number): { fromS: number; toS: number } => ({ fromS, toS: fromS + 2 / 24 });

describe('from mark to mark', () => {
  it('goes on from the one that is held, and ends with the last', () => {
    expect(markBeside(marks, 'm0', on(3), 1)?.id).toBe('m1');
    expect(markBeside(marks, 'm2', on(3), -1)?.id).toBe('m1');
    expect(markBeside(marks, 'm2', on(3), 1)).toBeUndefined();
    expect(markBeside(marks, 'm0', on(3), -1)).toBeUndefined();
  });

  it('begins at the playhead where none is held, or one that is gone', () => {
    expect(markBeside(marks, null, on(3), 1)?.id).toBe('m2');
    expect(markBeside(marks, 'gone', on(3), -1)?.id).toBe('m1');
    expect(markBeside([], null, on(3), 1)).toBeUndefined();
  });

  it('takes the mark of the playhead’s own step first, either way', () => {
    expect(markBeside(marks, null, on(2), 1)?.id).toBe('m1');
    expect(markBeside(marks, null, on(2), -1)?.id).toBe('m1');
    // on the second exposure of the step as well
    expect(markBeside(marks, null, on(2 - 1 / 24), -1)?.id).toBe('m1');
    expect(markBeside(marks, null, on(2 - 2 / 24), -1)?.id).toBe('m0');
  });
});
