/**
 * The puppet at the playhead. The picture is painted outside of React; it is turned by dragging, shifted by dragging with
 * Shift or the right button, and brought nearer with the wheel. A click picks a joint.
 */
import { type PointerEvent, type ReactElement, type ReactNode, useEffect, useRef } from 'react';
import { paintScene } from '../../puppet3d/paintScene.ts';
import { orbitBy, pickJoint, puppetView, shiftBy, zoomBy } from '../../puppet3d/puppetView.ts';
import type { PuppetScene } from '../../puppet3d/scene.ts';
import { noteInkOf, stageInkOf } from '../../puppet3d/stageInk.ts';
import { useStage } from '../../puppet3d/useStage.ts';
import { paintWithPlayhead, repaintPlayhead } from '../../state/playhead.ts';
import { useSession } from '../../state/use.ts';
import { ViewButtons } from './ViewButtons.tsx';

/** Degrees for one px of dragging; a third of a turn over 240 px. */
const DRAG_DEG_PER_PX = 0.5;
/** A pointer that moved less than this has clicked, px. */
const CLICK_PX = 4;

export interface PuppetPictureProps {
  readonly scene: PuppetScene;
  /** In place of the buttons and of the words below the picture, where the puppet is shown for something else. */
  readonly below?: ReactNode;
  /** What the picture says to those who do not see it, after “The puppet at this step”. */
  readonly says?: string;
}

export function PuppetPicture({ scene, below, says = 'the list beside it says how much each joint moves' }: PuppetPictureProps): ReactElement {
  const box = useRef<HTMLDivElement>(null);
  const overlay = useRef<HTMLCanvasElement>(null);
  const flat = useRef<SVGSVGElement>(null);
  const { canvas, stage, kind, why } = useStage();
  const red = useSession((s) => s.red);

  useEffect(() => {
    const element = box.current;
    if (element === null || kind === 'loading') return undefined;
    const ink = noteInkOf(element);
    stage.current?.setInk(stageInkOf(element));
    stage.current?.setShape(scene.shape, scene.box);
    const observer = new ResizeObserver(() => repaintPlayhead());
    observer.observe(element);
    const stop = paintWithPlayhead(({ step }) => {
      if (box.current === null || overlay.current === null) return;
      const sizePx = { width: box.current.clientWidth, height: box.current.clientHeight };
      const started = performance.now();
      paintScene(scene, step, puppetView.getState(), { overlay: overlay.current, stage: stage.current, flat: flat.current, sizePx, ink });
      performance.measure('puppet-draw', { start: started });
    });
    return () => {
      observer.disconnect();
      stop();
    };
  }, [scene, stage, kind, red]);

  // React listens to the wheel passively; here it must not scroll the sheet.
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const onWheel = (event: WheelEvent): void => {
      if (event.ctrlKey) return;
      event.preventDefault();
      const place = element.getBoundingClientRect();
      zoomBy(1.0015 ** -event.deltaY, [event.clientX - place.left - place.width / 2, event.clientY - place.top - place.height / 2]);
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, []);

  const drag = useRef<{ x: number; y: number; far: number; shift: boolean } | null>(null);
  const onPointerDown = (event: PointerEvent<HTMLDivElement>): void => {
    if (event.button > 2) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    drag.current = { x: event.clientX, y: event.clientY, far: 0, shift: event.shiftKey || event.button !== 0 };
  };
  const onPointerMove = (event: PointerEvent<HTMLDivElement>): void => {
    const from = drag.current;
    if (from === null) return;
    const [dx, dy] = [event.clientX - from.x, event.clientY - from.y];
    drag.current = { ...from, x: event.clientX, y: event.clientY, far: from.far + Math.hypot(dx, dy) };
    if (drag.current.far < CLICK_PX) return;
    if (from.shift) shiftBy(dx, dy);
    else orbitBy(-dx * DRAG_DEG_PER_PX, dy * DRAG_DEG_PER_PX);
  };
  const onPointerUp = (event: PointerEvent<HTMLDivElement>): void => {
    const from = drag.current;
    drag.current = null;
    if (from === null || from.far >= CLICK_PX || from.shift) return;
    const place = event.currentTarget.getBoundingClientRect();
    const part = stage.current === null ? Number((event.target as Element).closest('[data-part]')?.getAttribute('data-part') ?? -1) : stage.current.partAt(event.clientX - place.left, event.clientY - place.top);
    const name = scene.shape.parts[part]?.joint?.name ?? null;
    pickJoint(name === puppetView.getState().picked ? null : name);
  };

  return (
    <figure className="puppet-picture">
      <div
        ref={box}
        className="puppet-box"
        onPointerDown={onPointerDown}
        onPointerMove={onPointerMove}
        onPointerUp={onPointerUp}
        onPointerCancel={() => { drag.current = null; }}
        onContextMenu={(event) => event.preventDefault()}
      >
        <canvas ref={canvas} hidden={kind === 'flat'} role="img" aria-label={`The puppet at this step; ${says}`} />
        {kind === 'flat' ? <svg ref={flat} role="img" aria-label={`The puppet at this step, drawn flat; ${says}`} /> : null}
        <canvas ref={overlay} className="puppet-notes" aria-hidden="true" />
        {kind === 'loading' ? <p className="picture-words">the stage is being set</p> : null}
      </div>
      {why === '' ? null : <p className="puppet-why" role="status">{why}</p>}
      {below === undefined ? <ViewButtons /> : null}
      {below === undefined ? <figcaption className="hint">
        <span>Outlined: moved since the step before.</span>
        <span className="legend"><span className="sign sign-before" aria-hidden="true" /> the step before</span>
        <span className="legend"><span className="sign sign-after" aria-hidden="true" /> the step after</span>
        <span>Drag goes round, the wheel comes nearer, Shift and drag shifts; every view begins with the whole figure.</span>
      </figcaption> : below}
    </figure>
  );
}
