/**
 * Paints what the playhead shows onto a canvas: the very frame, or dark where its picture has not come in, and over it the
 * skeleton of that same frame. Never another frame's picture.
 */
import { drawSkeleton, fitRect, type Pen, type SkeletonLook, type SkeletonPlace } from '../../charts/skeleton.ts';
import { nearestFrame } from '../../footage/frameAt.ts';
import { sightOf } from '../../pose/hidden.ts';
import { frameAtPlayhead } from '../media/frameAtPlayhead.ts';
import { currentBook } from '../state/bookStore.ts';
import type { Playhead } from '../state/playhead.ts';
import { session } from '../state/session.ts';
import { frameTimes } from '../state/shownFrame.ts';

export interface PictureSaid {
  /** Index from 0 and moment of the frame that is shown; `undefined` where there is none. */
  readonly frame: number | undefined;
  readonly frames: number;
  readonly timeS: number;
  /** What a person should know about what they see; empty where all is plain. */
  readonly words: string;
  /** Where the frame stands on the canvas; `null` where none does. */
  readonly place: SkeletonPlace | null;
}

/** What a screen draws over the skeleton. */
export interface PictureOver {
  /** Whether it has a figure of its own to draw at a frame of the track; the measured skeleton is then thin. */
  readonly draws: (trackFrame: number) => boolean;
  readonly draw: (pen: Pen, place: SkeletonPlace, look: SkeletonLook, trackFrame: number) => void;
}

/** The measured skeleton beside a figure, as a share of its own thickness. */
const THIN = 0.45;

/** How many frames to have ready after and before the one on show, in the direction of travel first. */
const AHEAD = 6;

/** Two timestamps of one frame differ by rounding only. */
const SAME_FRAME_S = 0.002;

/**
 * @param sizePx size of the canvas in CSS pixels; its own pixels are set from the screen's density
 */
export function paintPicture(
  canvas: HTMLCanvasElement,
  sizePx: { readonly width: number; readonly height: number },
  at: Playhead,
  look: SkeletonLook,
  over: PictureOver | null = null,
): PictureSaid {
  const pen = canvas.getContext('2d');
  const { footage, track, plan, job } = session.getState();
  const { take, settings } = currentBook();
  const timesS = frameTimes();
  const shown = frameAtPlayhead(timesS, plan, at);
  if (pen === null) return { frame: undefined, frames: 0, timeS: 0, words: 'This browser draws no pictures.', place: null };
  const density = window.devicePixelRatio || 1;
  const [width, height] = [Math.round(sizePx.width * density), Math.round(sizePx.height * density)];
  if (canvas.width !== width || canvas.height !== height) {
    canvas.width = width;
    canvas.height = height;
  }
  pen.setTransform(density, 0, 0, density, 0, 0);
  pen.clearRect(0, 0, sizePx.width, sizePx.height);
  if (shown === undefined) return { frame: undefined, frames: 0, timeS: 0, words: '', place: null };

  const frameW = footage?.facts.widthPx ?? take?.widthPx ?? track?.widthPx ?? 1;
  const frameH = footage?.facts.heightPx ?? take?.heightPx ?? track?.heightPx ?? 1;
  const place = { ...fitRect(frameW, frameH, sizePx.width, sizePx.height), mirror: settings.mirror };
  pen.fillStyle = look.edge;
  pen.fillRect(place.x, place.y, place.width, place.height);

  const picture = footage?.viewer.peek(shown.frame);
  if (picture !== undefined) {
    pen.save();
    if (place.mirror) {
      pen.translate(2 * place.x + place.width, 0);
      pen.scale(-1, 1);
    }
    pen.drawImage(picture, place.x, place.y, place.width, place.height);
    pen.restore();
  }
  footage?.viewer.want(shown.frame, ahead(shown.frame, timesS.length));

  const words: string[] = [];
  if (footage !== null && picture === undefined) words.push(`frame ${shown.frame + 1} is coming`);
  if (track !== null) {
    const own = nearestFrame(track.timesS, shown.timeS);
    const same = Math.abs((track.timesS[own] ?? Number.NaN) - shown.timeS) < SAME_FRAME_S;
    const beside = over !== null && same && over.draws(own);
    const measured = beside ? { ...look, bonePx: look.bonePx * THIN } : look;
    const drawn = same && drawSkeleton(pen, track, own, place, measured, (f, l) => sightOf(track, f, l) !== 'seen');
    if (beside) over.draw(pen, place, look, own);
    if (!drawn) words.push(job?.kind === 'posing' ? 'this frame has not been posed yet' : 'nobody found in this frame');
  }
  if (place.mirror) words.push('mirrored');
  return { frame: shown.frame, frames: shown.frames, timeS: shown.timeS, words: words.join(' · '), place };
}

/** Frames to have ready, most likely first: on, then back. */
function ahead(frame: number, frames: number): number[] {
  const out: number[] = [];
  for (let i = 1; i <= AHEAD; i += 1) if (frame + i < frames) out.push(frame + i);
  for (let i = 1; i <= AHEAD / 2; i += 1) if (frame - i >= 0) out.push(frame - i);
  return out;
}
