/** The puppet at the playhead, small, beside the take: nothing on it but the pose. */
import { type ReactElement, useEffect, useMemo, useRef } from 'react';
import type { Plan } from '../../../../plan/plan.ts';
import { completeArmature } from '../../../../puppet/completeArmature.ts';
import { paintScene } from '../../../puppet3d/paintScene.ts';
import { puppetView } from '../../../puppet3d/puppetView.ts';
import { noteInkOf, stageInkOf } from '../../../puppet3d/stageInk.ts';
import { useStage } from '../../../puppet3d/useStage.ts';
import { paintWithPlayhead, repaintPlayhead } from '../../../state/playhead.ts';
import { useArmature } from '../../../state/puppetEdits.ts';
import { useSession } from '../../../state/use.ts';
import { isPlanOf, sceneAtRest, sceneOfPlan } from '../../puppet/puppetScene.ts';

/** The paper keeps a margin for notes; here there are none, and every pixel is wanted. Px on every side; our choice of what is left. */
const NOTES_PX = 44;
const LEFT_PX = 14;

function fillingZoom({ width, height }: { readonly width: number; readonly height: number }): number {
  const by = (sidePx: number): number => (sidePx - 2 * LEFT_PX) / Math.max(1, sidePx - 2 * NOTES_PX);
  return Math.max(1, Math.min(3, by(width), by(height)));
}

export function StagePicture({ plan }: { readonly plan: Plan }): ReactElement {
  const armature = completeArmature(useArmature());
  const fits = isPlanOf(plan, armature);
  const scene = useMemo(() => (fits ? sceneOfPlan(plan, armature) : sceneAtRest(armature)), [plan, armature, fits]);
  const red = useSession((s) => s.red);
  const box = useRef<HTMLDivElement>(null);
  const overlay = useRef<HTMLCanvasElement>(null);
  const flat = useRef<SVGSVGElement>(null);
  const { canvas, stage, kind } = useStage();

  useEffect(() => {
    const element = box.current;
    if (element === null || kind === 'loading') return undefined;
    const ink = noteInkOf(element);
    stage.current?.setInk(stageInkOf(element));
    stage.current?.setShape(scene.shape, scene.box);
    let sizePx = { width: element.clientWidth, height: element.clientHeight };
    const observer = new ResizeObserver(() => {
      sizePx = { width: element.clientWidth, height: element.clientHeight };
      repaintPlayhead();
    });
    observer.observe(element);
    const stop = paintWithPlayhead(({ step }) => {
      if (overlay.current === null) return;
      // the whole figure from where it is looked at, without the step before and after
      const view = { ...puppetView.getState(), ghosts: false, labels: false, picked: null, zoom: fillingZoom(sizePx), shiftPx: [0, 0] as const };
      paintScene(scene, step, view, { overlay: overlay.current, stage: stage.current, flat: flat.current, sizePx, ink });
    });
    return () => {
      observer.disconnect();
      stop();
    };
  }, [scene, stage, kind, red]);

  return (
    <figure className="picture stage-picture">
      <div ref={box} className="stage-box">
        <canvas ref={canvas} hidden={kind === 'flat'} role="img" aria-label="The puppet at the playhead, as the sheet orders it" />
        {kind === 'flat' ? <svg ref={flat} role="img" aria-label="The puppet at the playhead, drawn flat" /> : null}
        <canvas ref={overlay} className="stage-notes" aria-hidden="true" />
        {kind === 'loading' ? <p className="picture-words">the stage is being set</p> : fits ? null : <p className="picture-words">the plan of this puppet is coming</p>}
      </div>
    </figure>
  );
}
