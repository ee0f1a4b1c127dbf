import { describe, expect, it } from 'vitest';
import { codecName } from '../../src/footage/codecName.ts';

describe('codec names', () => {
  it.each([
    ['hev1.1.6.L60.90', 'HEVC (H.265)'], ['hvc1', 'HEVC (H.265)'], ['V_MPEGH/ISO/HEVC', 'HEVC (H.265)'],
    ['avc1.64000d', 'H.264'], ['V_MPEG4/ISO/AVC', 'H.264'], ['mp4v', 'MPEG-4 Part 2'], ['V_MPEG4/ISO/ASP', 'MPEG-4 Part 2'],
    ['apch', 'ProRes'], ['vp09.00.11.08', 'VP9'], ['av01.0.04M.08', 'AV1'], ['jpeg', 'Motion JPEG'], ['zzzz', '"zzzz"'],
  ])('%s is %s', (identifier, name) => {
    expect(codecName(identifier)).toBe(name);
  });
});
