/** The set from above at the playhead's step. */
import { type ReactElement, useEffect, useRef } from 'react';
import { drawPlanView, type SoleSeen } from '../../../charts/poise/planView.ts';
import type { Plan } from '../../../plan/plan.ts';
import type { CompleteArmature } from '../../../puppet/complete.ts';
import { emptyStance, forward, pointOn, skeletonOf } from '../../../puppet/kinematics.ts';
import { currentBook } from '../../state/bookStore.ts';
import { paintWithPlayhead, repaintPlayhead } from '../../state/playhead.ts';
import { useBook } from '../../state/use.ts';

/** Margin around the soles, as a part of their own span. */
const AROUND = 0.4;

export function PlanView({ plan, armature }: { readonly plan: Plan; readonly armature: CompleteArmature }): ReactElement {
  const box = useRef<HTMLDivElement>(null);
  const svg = useRef<SVGSVGElement>(null);
  const tieDowns = useBook((b) => b.poise.tieDowns);
  useEffect(() => {
    const element = box.current;
    if (element === null) return undefined;
    let size = { widthPx: element.clientWidth, heightPx: element.clientHeight };
    const observer = new ResizeObserver(() => {
      size = { widthPx: element.clientWidth, heightPx: element.clientHeight };
      repaintPlayhead();
    });
    observer.observe(element);
    const stop = paintWithPlayhead(({ step }) => {
      if (svg.current === null || size.widthPx === 0) return;
      const at = Math.min(step, plan.stepCount - 1);
      const soles = solesAt(plan, armature, at);
      const { centreMm, spanMm } = frameOf(plan, soles, at);
      svg.current.setAttribute('width', String(size.widthPx));
      svg.current.setAttribute('height', String(size.heightPx));
      drawPlanView(svg.current, { balance: plan.balance, step: at, soles, centreMm, pxPerMm: Math.min(size.widthPx, size.heightPx) / spanMm, ...size });
    });
    return () => {
      observer.disconnect();
      stop();
    };
  }, [plan, armature]);
  useEffect(repaintPlayhead, [tieDowns, plan]);
  return (
    <div className="plan-view" ref={box}>
      <svg ref={svg} role="img" aria-label="The set from above: soles, base of support, centre of mass (cross) with its error, extrapolated centre of mass (kite)" />
    </div>
  );
}

/** Soles as they lie at a step; none where there is no pose. */
function solesAt(plan: Plan, armature: CompleteArmature, step: number): readonly SoleSeen[] {
  const { orderedRootMm, orderedRotations, feet, balance, sourceTimeS } = plan;
  if (Number.isNaN(orderedRootMm[step * 3] ?? Number.NaN)) return [];
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  forward(skeleton, orderedRotations, step, [orderedRootMm[step * 3]!, orderedRootMm[step * 3 + 1]!, orderedRootMm[step * 3 + 2]!], stance);
  const { tieDowns } = currentBook().poise;
  const width = balance.touchNames.length;
  return feet.flatMap(({ name, bone }): readonly SoleSeen[] => {
    const sole = armature.bones[bone]?.sole;
    if (sole === null || sole === undefined) return [];
    const k = balance.touchNames.indexOf(name);
    const on = k >= 0 && balance.touching[step * width + k] === 1;
    const unseen = k >= 0 && balance.unseen[step * width + k] === 1;
    const tied = on && tieDowns.some(({ foot, fromS, toS }) => foot === name && sourceTimeS[step]! >= fromS && sourceTimeS[step]! <= toS);
    const outlineMm = sole.outlineMm.flatMap(([x, z]) => {
      const [px, , pz] = pointOn(stance, bone, [x, -sole.dropMm, z]);
      return [px, pz];
    });
    return [{ name, outlineMm, state: tied ? 'tied' : on ? 'stands' : unseen ? 'unseen' : 'lifted' }];
  });
}

/** What is in the picture: the soles and the centre of mass, with room around; the same size while the soles keep their distance. */
function frameOf({ balance }: Plan, soles: readonly SoleSeen[], step: number): { readonly centreMm: readonly [number, number]; readonly spanMm: number } {
  const points = soles.flatMap(({ outlineMm }) => outlineMm);
  const mass = [balance.massMm[step * 3] ?? Number.NaN, balance.massMm[step * 3 + 2] ?? Number.NaN];
  if (!Number.isNaN(mass[0]!)) points.push(mass[0]!, mass[1]!);
  if (points.length === 0) return { centreMm: [0, 0], spanMm: 200 };
  const range = (offset: number): readonly [number, number] => {
    const own = points.filter((_, k) => k % 2 === offset);
    return [Math.min(...own), Math.max(...own)];
  };
  const [[x0, x1], [z0, z1]] = [range(0), range(1)];
  // in steps of a fifth, so that the picture does not breathe
  const wide = Math.max(40, (1 + AROUND) * Math.max(x1 - x0, z1 - z0));
  return { centreMm: [(x0 + x1) / 2, (z0 + z1) / 2], spanMm: 1.2 ** Math.ceil(Math.log(wide) / Math.log(1.2)) };
}
