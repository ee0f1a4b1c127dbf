/**
 * Codecs by the names that people know them by, for sentences.
 */

/** Beginnings of the identifiers that containers and RFC 6381 strings use, lower case. */
const NAMES: readonly (readonly [string, string])[] = [
  ['hevc', 'HEVC (H.265)'], ['hvc1', 'HEVC (H.265)'], ['hev1', 'HEVC (H.265)'], ['v_mpegh', 'HEVC (H.265)'],
  ['dvh', 'Dolby Vision (HEVC)'],
  ['avc', 'H.264'], ['v_mpeg4/iso/avc', 'H.264'],
  ['mp4v', 'MPEG-4 Part 2'], ['v_mpeg4', 'MPEG-4 Part 2'], ['xvid', 'MPEG-4 Part 2'], ['divx', 'MPEG-4 Part 2'],
  ['jpeg', 'Motion JPEG'], ['mjp', 'Motion JPEG'], ['v_mjpeg', 'Motion JPEG'],
  ['ap', 'ProRes'], ['v_prores', 'ProRes'],
  ['avdh', 'DNxHR'], ['avdn', 'DNxHD'],
  ['v_mpeg2', 'MPEG-2'], ['v_mpeg1', 'MPEG-1'],
  ['av01', 'AV1'], ['av1', 'AV1'], ['vp09', 'VP9'], ['vp9', 'VP9'], ['vp08', 'VP8'], ['vp8', 'VP8'],
  ['theora', 'Theora'], ['v_theora', 'Theora'],
];

/**
 * @param identifier RFC 6381 string, sample entry of an MP4, or codec id of a Matroska file
 * @returns the codec's everyday name, or the identifier in quotes
 */
export function codecName(identifier: string): string {
  const id = identifier.toLowerCase();
  return NAMES.find(([start]) => id.startsWith(start))?.[1] ?? `"${identifier}"`;
}
