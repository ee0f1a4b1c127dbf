/**
 * What is written on the picture of a puppet: labels with a line to their joint, arrows along which the ends of the chains
 * travelled, the sides, and a length to measure by. On a canvas of its own over the picture.
 */
import type { Pen } from '../skeleton.ts';

export interface Note {
  /** Point on the paper that it speaks of, px. */
  readonly x: number;
  readonly y: number;
  readonly words: string;
  readonly strong?: boolean;
}

export interface PlacedNote extends Note {
  /** Where the words stand; they begin here (`start`) or end here (`end`). */
  readonly textX: number;
  readonly textY: number;
  readonly anchor: 'start' | 'end';
}

/**
 * Stands notes in two columns at the edges of the paper, on the side of their points, from top to bottom in the order of the
 * points, `rowPx` apart at least, so that neither words nor lines cross more than they must.
 *
 * @param topPx, bottomPx room for the columns
 */
export function placeNotes(notes: readonly Note[], widthPx: number, topPx: number, bottomPx: number, rowPx: number, insetPx: number): PlacedNote[] {
  const middle = notes.length === 0 ? 0 : notes.reduce((sum, n) => sum + n.x, 0) / notes.length;
  const columns = { left: [] as Note[], right: [] as Note[] };
  for (const note of [...notes].sort((a, b) => a.x - b.x)) columns[note.x < middle ? 'left' : 'right'].push(note);
  return (['left', 'right'] as const).flatMap((side) => {
    const column = columns[side].sort((a, b) => a.y - b.y);
    const step = Math.min(rowPx, column.length > 1 ? (bottomPx - topPx) / (column.length - 1) : rowPx);
    const ys: number[] = [];
    // Down: each below the one before; then up again where the last ran out of the paper.
    column.forEach((note, i) => ys.push(Math.max(i === 0 ? topPx : ys[i - 1]! + step, note.y)));
    for (let i = ys.length - 1, limit = bottomPx; i >= 0; i -= 1, limit -= step) if (ys[i]! > limit) ys[i] = limit;
    return column.map((note, i): PlacedNote => ({ ...note, textX: side === 'left' ? insetPx : widthPx - insetPx, textY: ys[i]!, anchor: side === 'left' ? 'start' : 'end' }));
  });
}

export interface NoteInk {
  readonly words: string;
  readonly dim: string;
  readonly edge: string;
  readonly lamp: string;
  readonly fontFamily: string;
}

/** Draws placed notes with their lines. `measure` gives the width of words, px. */
export function drawNotes(pen: Pen, notes: readonly PlacedNote[], ink: NoteInk, measure: (words: string) => number): void {
  pen.textBaseline = 'middle';
  for (const note of notes) {
    pen.font = `${note.strong === true ? 650 : 400} 13px ${ink.fontFamily}`;
    const edgeX = note.textX + (note.anchor === 'start' ? 1 : -1) * (measure(note.words) + 6);
    pen.setLineDash([1, 3]);
    pen.lineWidth = 1;
    pen.strokeStyle = note.strong === true ? ink.lamp : ink.dim;
    pen.beginPath();
    pen.moveTo(edgeX, note.textY);
    pen.lineTo(note.x, note.y);
    pen.stroke();
    pen.setLineDash([]);
    write(pen, note.words, note.textX, note.textY, note.anchor === 'start' ? 'left' : 'right', note.strong === true ? ink.lamp : ink.words, ink.edge);
  }
}

/** Words with a dark edge, readable over anything. */
export function write(pen: Pen, words: string, x: number, y: number, align: CanvasTextAlign, colour: string, edge: string): void {
  pen.textAlign = align;
  pen.strokeStyle = edge;
  pen.lineWidth = 4;
  pen.lineJoin = 'round';
  pen.strokeText(words, x, y);
  pen.fillStyle = colour;
  pen.fillText(words, x, y);
}

export interface Travel {
  readonly fromX: number;
  readonly fromY: number;
  readonly toX: number;
  readonly toY: number;
}

/** Shorter arrows are no more than dirt on the picture, px. */
const LEAST_TRAVEL_PX = 4;

/** The ways that points took since the step before, with heads at where they are now. */
export function drawTravels(pen: Pen, travels: readonly Travel[], ink: NoteInk): void {
  pen.setLineDash([]);
  pen.lineCap = 'round';
  for (const t of travels) {
    const [dx, dy] = [t.toX - t.fromX, t.toY - t.fromY];
    const size = Math.hypot(dx, dy);
    if (!(size >= LEAST_TRAVEL_PX)) continue;
    const head = Math.min(9, size * 0.6);
    const [ux, uy] = [dx / size, dy / size];
    for (const [colour, width] of [[ink.edge, 5], [ink.lamp, 2]] as const) {
      pen.strokeStyle = colour;
      pen.lineWidth = width;
      pen.beginPath();
      pen.moveTo(t.fromX, t.fromY);
      pen.lineTo(t.toX, t.toY);
      pen.moveTo(t.toX - head * (ux - uy * 0.5), t.toY - head * (uy + ux * 0.5));
      pen.lineTo(t.toX, t.toY);
      pen.lineTo(t.toX - head * (ux + uy * 0.5), t.toY - head * (uy - ux * 0.5));
      pen.stroke();
    }
  }
}

/** A length to measure by, at the lower left. */
export function drawScaleBar(pen: Pen, lengthMm: number, pxPerMm: number, x: number, y: number, words: string, ink: NoteInk): void {
  const widthPx = lengthMm * pxPerMm;
  pen.setLineDash([]);
  pen.strokeStyle = ink.words;
  pen.lineWidth = 1.5;
  pen.beginPath();
  pen.moveTo(x, y - 5);
  pen.lineTo(x, y);
  pen.lineTo(x + widthPx, y);
  pen.lineTo(x + widthPx, y - 5);
  pen.stroke();
  pen.font = `400 13px ${ink.fontFamily}`;
  pen.textBaseline = 'middle';
  write(pen, words, x + widthPx + 8, y - 3, 'left', ink.words, ink.edge);
}
