/**
 * The two halves as Markdown: every clip, what happens in it and how it is filmed.
 */
import { markdownTable } from '../bench/document/markdownTable.ts';
import { cameraPitchDeg } from '../clips/camera.ts';
import { CLIP_SETS, frameCount, FPS } from '../clips/clip.ts';
import { CLIPS } from '../clips/clips.ts';
import { figure, signed } from './words.ts';

export function halvesTable(): string {
  const sorted = CLIP_SETS.flatMap((set) => CLIPS.filter((clip) => clip.set === set));
  const total = (set: string): string => {
    const those = sorted.filter((clip) => clip.set === set);
    return `${those.length} clips, ${those.reduce((n, clip) => n + frameCount(clip), 0)} frames for ${set}`;
  };
  return `${CLIP_SETS.map(total).join('; ')}.\n\n${markdownTable(
    ['half', 'clip', 'what happens', 'body', 'outfit', 'camera: round, °|r', 'height, m|r', 'down, °|r', 'roll, °|r', 'length, s|r', 'blur'],
    sorted.map((clip) => [
      clip.set, clip.committed ? `${clip.name} (kept)` : clip.name, clip.action.says, clip.body.name, clip.outfit.name,
      signed(clip.shot.azimuthDeg, 0), figure(clip.shot.heightM), signed(cameraPitchDeg(clip.shot), 0), signed(clip.shot.rollDeg ?? 0, 0),
      figure(frameCount(clip) / FPS), clip.blurSubFrames === undefined ? 'no' : 'yes',
    ]),
  )}`;
}
