/**
 * Hatching: the mark of a value that was not plainly measured. One pattern, the same slope and pitch everywhere, in the
 * current text colour, so that it reads without colour.
 */
import type { Selection } from 'd3';
import { put } from './sparing.ts';

/** Distance between two hatch lines, px. */
export const HATCH_PITCH_PX = 5;

/**
 * Makes sure that an SVG has the hatch pattern and returns the value for `fill`.
 *
 * @param svg any svg element's selection
 * @param id unique in the page: patterns are looked up by id across the whole document
 */
export function ensureHatch(svg: Selection<SVGSVGElement, unknown, null, undefined>, id: string): string {
  const defs = svg.selectAll<SVGDefsElement, string>('defs').data([id]).join('defs');
  const pattern = put(
    defs.selectAll<SVGPatternElement, string>('pattern').data([id]).join('pattern'),
    { id, patternUnits: 'userSpaceOnUse', width: HATCH_PITCH_PX, height: HATCH_PITCH_PX, patternTransform: 'rotate(45)' },
  );
  put(pattern.selectAll<SVGLineElement, number>('line').data([0]).join('line'), { class: 'hatch-line', x1: 0, x2: 0, y1: 0, y2: HATCH_PITCH_PX });
  return `url(#${id})`;
}
