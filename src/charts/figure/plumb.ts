/** The plumb line: from the centre of mass down to the floor, with the base of support that it should come down in. */
import type { Vec3 } from '../../numeric/vector3.ts';
import type { Pen } from '../skeleton.ts';
import type { NoteInk } from './notes.ts';
import { type Paper, project, type viewAxes } from './view.ts';

/** On the stage, mm: X forward, Y above the floor. */
export interface Plumb {
  readonly massMm: Vec3;
  /** Outline on the floor, `[x, z, …]` in order round it; empty in the air. */
  readonly supportMm: ArrayLike<number>;
}

/** Half the arm of the cross at the floor and the ring's radius at the mass, px; our choice. */
const CROSS_PX = 7;
const RING_PX = 6;

/** Dashes of the plumb line of another pose, px. */
const OTHER_DASH_PX = [5, 4];

/**
 * Draws the outline, the line and its two ends; nothing where the mass is not known.
 *
 * @param which `other`: of the pose that is compared; dashed and dim, without the outline, which both share
 */
export function drawPlumb(pen: Pen, { massMm, supportMm }: Plumb, axes: ReturnType<typeof viewAxes>, paper: Paper, ink: NoteInk, which: 'own' | 'other' = 'own'): void {
  if (!massMm.every(Number.isFinite)) return;
  const at = (mm: Vec3): { readonly x: number; readonly y: number } => project(axes, paper, mm);
  const top = at(massMm);
  const foot = at([massMm[0], 0, massMm[2]]);
  // first a dark edge, then the line: readable over the figure and the floor
  const own = which === 'own';
  for (const [colour, wider] of [[ink.edge, 3], [own ? ink.lamp : ink.words, 0]] as const) {
    pen.strokeStyle = colour;
    pen.setLineDash(own ? [] : OTHER_DASH_PX);
    pen.lineWidth = 2 + wider;
    pen.beginPath();
    // round once more to the first point, to close the outline
    for (let k = 0; own && k <= supportMm.length && supportMm.length >= 4; k += 2) {
      const { x, y } = at([supportMm[k % supportMm.length]!, 0, supportMm[(k + 1) % supportMm.length]!]);
      if (k === 0) pen.moveTo(x, y);
      else pen.lineTo(x, y);
    }
    pen.moveTo(top.x, top.y);
    pen.lineTo(foot.x, foot.y);
    pen.moveTo(foot.x - CROSS_PX, foot.y - CROSS_PX);
    pen.lineTo(foot.x + CROSS_PX, foot.y + CROSS_PX);
    pen.moveTo(foot.x - CROSS_PX, foot.y + CROSS_PX);
    pen.lineTo(foot.x + CROSS_PX, foot.y - CROSS_PX);
    pen.moveTo(top.x + RING_PX, top.y);
    pen.arc(top.x, top.y, RING_PX, 0, 2 * Math.PI);
    pen.stroke();
  }
  pen.setLineDash([]);
}
