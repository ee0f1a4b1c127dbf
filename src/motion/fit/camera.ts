/** The lens, as far as the fit must know it. */
import { DEFAULT_FIELD_OF_VIEW_DEG } from './constants.ts';

/**
 * Focal length in pixels of the upright frame.
 *
 * @param verticalFovDeg field of view over the frame's height; left out, 50° over its shorter side is taken
 */
export function focalLengthPx(widthPx: number, heightPx: number, verticalFovDeg?: number): number {
  const [side, deg] = verticalFovDeg === undefined
    ? [Math.min(widthPx, heightPx), DEFAULT_FIELD_OF_VIEW_DEG]
    : [heightPx, verticalFovDeg];
  return side / 2 / Math.tan((deg * Math.PI) / 360);
}
