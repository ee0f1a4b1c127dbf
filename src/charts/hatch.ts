/**
 * Hatching: the mark of a value that was not plainly measured. One pattern, the same slope and pitch everywhere, in the
 * current text colour, so that it reads without colour.
 */
import type { Selection } from 'd3';

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
  const pattern = defs
    .selectAll<SVGPatternElement, string>('pattern')
    .data([id])
    .join('pattern')
    .attr('id', id)
    .attr('patternUnits', 'userSpaceOnUse')
    .attr('width', HATCH_PITCH_PX)
    .attr('height', HATCH_PITCH_PX)
    .attr('patternTransform', 'rotate(45)');
  pattern
    .selectAll('line')
    .data([0])
    .join('line')
    .attr('class', 'hatch-line')
    .attr('x1', 0)
    .attr('x2', 0)
    .attr('y1', 0)
    .attr('y2', HATCH_PITCH_PX);
  return `url(#${id})`;
}
