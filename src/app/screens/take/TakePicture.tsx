/**
 * The picture of the Take screen: footage, measured skeleton and fitted figure, with the joints of the figure to be taken
 * hold of. A joint is dragged to where it belongs, or chosen and moved by the arrow keys.
 */
import { type PointerEvent, type ReactElement, useCallback, useEffect, useMemo, useRef } from 'react';
import { useStore } from 'zustand';
import { drawFittedFigure, inFrame, onCanvas } from '../../../charts/fittedFigure.ts';
import type { SkeletonPlace } from '../../../charts/skeleton.ts';
import type { LandmarkName } from '../../../pose/landmarks.ts';
import { PLACEABLE } from '../../corrections/correctable.ts';
import { Picture } from '../../look/Picture.tsx';
import type { PictureOver, PictureSaid } from '../../look/picture.ts';
import { choose, correcting, placeHere, placeOf } from '../../state/correcting.ts';
import { repaintPlayhead } from '../../state/playhead.ts';
import { shownTrackFrame } from '../../state/shownFrame.ts';
import { useBook, useSession } from '../../state/use.ts';
import { JointHandle } from './JointHandle.tsx';

/** So near to a joint the pointer takes hold of it, px: a circle of 52 px across. */
const REACH_PX = 26;
/** A press that moves less is a choice and no drag, px. */
const DRAG_FROM_PX = 4;

interface Drag {
  readonly name: LandmarkName;
  readonly startX: number;
  readonly startY: number;
  /** Fractions of the frame where the joint is now; `null` until it has moved. */
  to: { readonly x: number; readonly y: number } | null;
}

function handleOf(layer: HTMLElement, name: LandmarkName): HTMLButtonElement | null {
  return layer.querySelector(`[data-joint="${name}"]`);
}

/** Lays the handles over the joints of the frame on show. */
function moveHandles(layer: HTMLElement, place: SkeletonPlace | null): void {
  const here = shownTrackFrame();
  for (const name of PLACEABLE) {
    const handle = handleOf(layer, name);
    if (handle === null) continue;
    const joint = here === null || place === null ? null : placeOf(name, here.frame);
    handle.hidden = joint === null;
    if (joint === null || place === null) continue;
    const p = onCanvas(joint, place);
    handle.style.transform = `translate(${p.x.toFixed(1)}px, ${p.y.toFixed(1)}px)`;
  }
}

export function TakePicture(): ReactElement {
  const fit = useSession((s) => s.fit);
  const track = useSession((s) => s.track);
  const corrections = useBook((b) => b.corrections);
  const chosen = useStore(correcting, (s) => s.chosen);
  const place = useRef<SkeletonPlace | null>(null);
  const drag = useRef<Drag | null>(null);
  const layer = useRef<HTMLDivElement>(null);

  useEffect(repaintPlayhead, [fit, corrections, chosen]);

  const over = useMemo<PictureOver>(() => ({
    draws: (frame) => PLACEABLE.some((name) => placeOf(name, frame)?.from === 'fit') || drag.current !== null,
    draw: (pen, at, look, frame) => {
      const moved = drag.current;
      drawFittedFigure(pen, (name) => {
        if (moved !== null && moved.to !== null && moved.name === name) return { ...moved.to, byHand: true };
        const joint = placeOf(name, frame);
        return joint === null ? null : { x: joint.x, y: joint.y, byHand: joint.from === 'hand' };
      }, at, look, correcting.getState().chosen);
    },
  }), []);

  const onPainted = useCallback((said: PictureSaid) => {
    place.current = said.place;
    if (layer.current !== null) moveHandles(layer.current, said.place);
  }, []);

  const nearest = (event: PointerEvent<HTMLElement>): { name: LandmarkName; x: number; y: number } | null => {
    const here = shownTrackFrame();
    if (here === null || place.current === null) return null;
    const box = event.currentTarget.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    let best: { name: LandmarkName; distance: number } | null = null;
    for (const name of PLACEABLE) {
      const joint = placeOf(name, here.frame);
      if (joint === null) continue;
      const p = onCanvas(joint, place.current);
      const distance = Math.hypot(p.x - x, p.y - y);
      if (distance < REACH_PX && (best === null || distance < best.distance)) best = { name, distance };
    }
    return best === null ? null : { name: best.name, x, y };
  };

  const onPointerDown = (event: PointerEvent<HTMLElement>): void => {
    if (event.button !== 0) return;
    const hit = nearest(event);
    if (hit === null) return;
    event.preventDefault();
    event.currentTarget.setPointerCapture(event.pointerId);
    drag.current = { name: hit.name, startX: hit.x, startY: hit.y, to: null };
    choose(hit.name);
    handleOf(event.currentTarget, hit.name)?.focus({ preventScroll: true });
  };
  const onPointerMove = (event: PointerEvent<HTMLElement>): void => {
    const now = drag.current;
    if (now === null || place.current === null) {
      event.currentTarget.style.cursor = nearest(event) === null ? '' : 'grab';
      return;
    }
    const box = event.currentTarget.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    if (now.to === null && Math.hypot(x - now.startX, y - now.startY) < DRAG_FROM_PX) return;
    now.to = inFrame({ x, y }, place.current);
    repaintPlayhead();
  };
  const onPointerUp = (): void => {
    const ended = drag.current;
    drag.current = null;
    if (ended !== null && ended.to !== null) placeHere(ended.name, ended.to.x, ended.to.y);
    repaintPlayhead();
  };
  const onPointerCancel = (): void => {
    drag.current = null;
    repaintPlayhead();
  };

  return (
    <Picture label="The footage at the playhead with the skeleton that was measured and the figure that was fitted" fill over={over} onPainted={onPainted}>
      {/* A press must not take the focus from the joint it has just taken hold of. */}
      <div ref={layer} className="joint-layer" onMouseDown={(event) => event.preventDefault()} onPointerDown={onPointerDown} onPointerMove={onPointerMove} onPointerUp={onPointerUp} onPointerCancel={onPointerCancel}>
        {track === null ? null : PLACEABLE.map((name) => (
          <JointHandle key={name} name={name} chosen={chosen === name} />
        ))}
      </div>
      {fit === null ? null : <p className="picture-legend" aria-hidden="true"><i className="legend-fitted" /> fitted <i className="legend-measured" /> measured <i className="legend-hand" /> by hand</p>}
    </Picture>
  );
}
