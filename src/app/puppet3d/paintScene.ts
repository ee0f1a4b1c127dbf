/**
 * One repaint of the puppet: the step at the playhead, its neighbours as hatching where they differ, and what is written over
 * them. Draws with a 3D stage, or flat where there is none.
 */
import { drawFlat, flatFigure } from '../../charts/figure/flat.ts';
import { type FigurePose, onStage, travelMm } from '../../charts/figure/figure.ts';
import { drawNotes, drawScaleBar, drawTravels, type Note, type NoteInk, placeNotes, write } from '../../charts/figure/notes.ts';
import { drawPlumb } from '../../charts/figure/plumb.ts';
import { type Paper, paperFor, project, roundMm, underGlass, viewAxes } from '../../charts/figure/view.ts';
import type { PuppetView } from './puppetView.ts';
import type { PuppetScene } from './scene.ts';
import type { Stage } from './stage.ts';

/** Ends that travel less than this are not called moving: thinner than a line of the picture, and than any hand. */
const MOVED_MM = 0.15;
const MARGIN_PX = 44;
/** Where no moves are written beside the puppet. */
const BARE_MARGIN_PX = 22;
const NOTE_ROW_PX = 19;
/** Narrower pictures have no room for what the floor's lines mean beside the scale bar. */
const FLOOR_WORDS_PX = 340;

export interface PaintedOn {
  readonly overlay: HTMLCanvasElement;
  readonly stage: Stage | null;
  readonly flat: SVGSVGElement | null;
  readonly sizePx: { readonly width: number; readonly height: number };
  readonly ink: NoteInk;
}

/** @returns the paper it was drawn on, or `null` where there was nothing to draw */
export function paintScene(scene: PuppetScene, step: number, view: PuppetView, on: PaintedOn): Paper | null {
  const pen = on.overlay.getContext('2d');
  const index = Math.min(step, scene.stepCount - 1);
  const now = scene.poseAt(index);
  const { width, height } = on.sizePx;
  if (pen === null || now === null || width < 2 || height < 2) return null;
  const alone = scene.other !== undefined;
  const density = window.devicePixelRatio || 1;
  const axes = viewAxes(view.view);
  const paper = underGlass(paperFor(scene.box, null, width, height, alone ? BARE_MARGIN_PX : MARGIN_PX), axes, view.zoom, view.shiftPx);
  const other = scene.other ?? null;
  const before = alone || index === 0 ? null : scene.poseAt(index - 1);
  const after = alone || !view.ghosts ? null : scene.poseAt(index + 1);
  const otherPose = other?.poseAt(index) ?? null;
  const { parts } = scene.shape;
  const since = before === null ? null : travelMm(scene.shape, before, now);
  const apart = otherPose === null ? null : travelMm(scene.shape, now, otherPose);
  const until = after === null ? null : travelMm(scene.shape, now, after);
  const moved = (part: number): boolean => (since?.[part] ?? 0) > MOVED_MM;
  const ghostShown = (which: 'before' | 'after', part: number): boolean => ((which === 'after' ? until : apart ?? since)?.[part] ?? 0) > MOVED_MM;
  const hatched = otherPose ?? (view.ghosts ? before : null);
  const picked = (part: number): boolean => view.picked !== null && parts[part]?.joint?.name === view.picked;
  const unsure = (part: number): boolean => scene.isUnsure(index, part);
  if (on.stage !== null) {
    on.stage.draw(
      { now, before: hatched, after, ghostShown, look: (part) => ({ moved: moved(part), unsure: unsure(part), picked: picked(part) }) },
      view.view, paper, density,
    );
  } else if (on.flat !== null) {
    const flat = (pose: FigurePose | null): ReturnType<typeof flatFigure> | null => (pose === null ? null : flatFigure(scene.shape, pose, view.view, paper));
    drawFlat(on.flat, flatFigure(scene.shape, now, view.view, paper), paper, 'puppet-flat', { picked, moved, unsure, ghostShown }, { before: flat(hatched), after: flat(after) });
  }
  const [w, h] = [Math.round(width * density), Math.round(height * density)];
  if (on.overlay.width !== w || on.overlay.height !== h) {
    on.overlay.width = w;
    on.overlay.height = h;
  }
  pen.setTransform(density, 0, 0, density, 0, 0);
  pen.clearRect(0, 0, width, height);
  if (other !== null && otherPose !== null) drawPlumb(pen, other.plumbAt(index), axes, paper, on.ink, 'other');
  if (scene.plumbAt !== undefined) drawPlumb(pen, scene.plumbAt(index), axes, paper, on.ink);
  const place = (pose: FigurePose, part: number, mm: readonly [number, number, number]): ReturnType<typeof project> => project(axes, paper, onStage(pose, part, mm));
  if (before !== null && view.ghosts) {
    drawTravels(pen, scene.ends.map(({ part, pointMm }) => {
      const [a, b] = [place(before, part, pointMm), place(now, part, pointMm)];
      return { fromX: a.x, fromY: a.y, toX: b.x, toY: b.y };
    }), on.ink);
  }
  pen.font = `650 15px ${on.ink.fontFamily}`;
  pen.textBaseline = 'middle';
  for (const { part, pointMm } of scene.ends) {
    const side = parts[part]?.side;
    if (side === undefined || side === 'middle') continue;
    const at = place(now, part, pointMm);
    if (Number.isFinite(at.x)) write(pen, side === 'left' ? 'L' : 'R', at.x, at.y + 15, 'center', on.ink.words, on.ink.edge);
  }
  const notes: Note[] = parts.flatMap((part, p): Note[] => {
    if (part.joint === null || !(view.labels || picked(p))) return [];
    const words = scene.moveWords(index, p);
    if (words === null) return [];
    const at = place(now, p, [0, 0, 0]);
    return Number.isFinite(at.x) ? [{ x: at.x, y: at.y, words, strong: picked(p) }] : [];
  });
  if (other !== null && otherPose !== null && apart !== null) {
    const part = farthestPart(apart);
    const end = part < 0 ? null : parts[part]!.toMm;
    for (const [pose, words] of end === null || apart[part]! <= MOVED_MM ? [] : [[otherPose, other.words], [now, other.nowWords]] as const) {
      const at = place(pose, part, end!);
      notes.push({ x: at.x, y: at.y, words, strong: pose === now });
    }
  }
  drawNotes(pen, placeNotes(notes, width, 24, height - 44, NOTE_ROW_PX, 12), on.ink, (words) => pen.measureText(words).width);
  const barMm = roundMm(paper.pxPerMm, 60);
  drawScaleBar(pen, barMm, paper.pxPerMm, 14, height - 14, `${barMm} mm${on.stage === null || width < FLOOR_WORDS_PX ? '' : ` · floor lines ${on.stage.gridMm()} mm apart`}`, on.ink);
  return paper;
}

/** The part that lies farthest from where the other pose has it; −1 where nothing is known. */
function farthestPart(apart: Float64Array): number {
  let best = -1;
  apart.forEach((mm, part) => {
    if (Number.isFinite(mm) && (best < 0 || mm > apart[best]!)) best = part;
  });
  return best;
}
