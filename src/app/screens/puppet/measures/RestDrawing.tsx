/** The armature at rest, drawn to scale from the front and from its right; bones and joints are picked in it. */
import { type PointerEvent, type ReactElement, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { boxOf } from '../../../../charts/figure/figure.ts';
import { drawFlat, flatFigure } from '../../../../charts/figure/flat.ts';
import { type Paper, paperFor, roundMm, viewAxes, VIEWS } from '../../../../charts/figure/view.ts';
import { jointWords } from '../../../../charts/figures.ts';
import type { CompleteArmature } from '../../../../puppet/complete.ts';
import { writeMeasure } from '../../../fields/measureText.ts';
import { pickJoint, puppetView } from '../../../puppet3d/puppetView.ts';
import { useSession } from '../../../state/use.ts';
import { figureOf, restPose } from '../figureOf.ts';

const MARGIN_PX = 30;
const SIDES = ['front', 'side'] as const;
const SIDE_WORDS = { front: 'from the front', side: 'from its right' } as const;

export function RestDrawing({ armature }: { readonly armature: CompleteArmature }): ReactElement {
  const box = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    const measure = (): void => setSize({ width: element.clientWidth, height: element.clientHeight });
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  const units = useSession((s) => s.units);
  const picked = useStore(puppetView, (s) => s.picked);
  const shape = figureOf(armature);
  const pose = useMemo(() => restPose(armature), [armature]);
  const half = { width: Math.floor(size.width / 2), height: size.height };
  const paper = useMemo((): Paper => {
    const around = boxOf(shape, [pose]);
    const both = SIDES.map((side) => paperFor(around, viewAxes(VIEWS[side]), half.width, half.height, MARGIN_PX));
    // One scale for both, or the two could not be compared.
    return { ...both[0]!, pxPerMm: Math.min(...both.map((p) => p.pxPerMm)) };
  }, [shape, pose, half.width, half.height]);
  const index = armature.joints.findIndex(({ name }) => name === picked);
  return (
    <figure className="puppet-picture">
      <div className="rest-box" ref={box}>
        {size.width > 0 ? SIDES.map((side) => <Side key={side} side={side} shape={shape} pose={pose} paper={paper} picked={picked} />) : null}
      </div>
      <figcaption className="hint">
        From the front and from its right, lines {writeMeasure(roundMm(paper.pxPerMm, 14), 'length', units)} apart.{' '}
        {index < 0 ? 'Click a bone or a joint, or choose it in the list.' : `${jointWords(armature.bones[index]!.name)}: ${writeMeasure(armature.bones[index]!.lengthMm, 'length', units)}.`}
      </figcaption>
    </figure>
  );
}

interface SideProps {
  readonly side: (typeof SIDES)[number];
  readonly shape: ReturnType<typeof figureOf>;
  readonly pose: ReturnType<typeof restPose>;
  readonly paper: Paper;
  readonly picked: string | null;
}

function Side({ side, shape, pose, paper, picked }: SideProps): ReactElement {
  const svg = useRef<SVGSVGElement>(null);
  useLayoutEffect(() => {
    if (svg.current === null) return;
    const isPicked = (part: number): boolean => shape.parts[part]?.joint?.name === picked;
    drawFlat(svg.current, flatFigure(shape, pose, VIEWS[side], paper), paper, `rest-${side}`, { picked: isPicked, moved: isPicked, unsure: () => false, ghostShown: () => false });
  }, [side, shape, pose, paper, picked]);
  const onPointerDown = (event: PointerEvent<SVGSVGElement>): void => {
    const part = (event.target as Element).closest('[data-part]')?.getAttribute('data-part');
    if (part === null || part === undefined) return;
    const name = shape.parts[Number(part)]?.joint?.name ?? null;
    pickJoint(name === picked ? null : name);
  };
  return <svg ref={svg} width={paper.widthPx} height={paper.heightPx} onPointerDown={onPointerDown} role="img" aria-label={`The puppet at rest, ${SIDE_WORDS[side]}; its measures stand in the list`} />;
}
