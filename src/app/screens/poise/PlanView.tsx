/** The set from above at the playhead's step. */
import { type ReactElement, useEffect, useRef } from 'react';
import { drawPlanView, type PadSeen, type SoleSeen, type TouchState, unseenWords } from '../../../charts/poise/planView.ts';
import type { Plan } from '../../../plan/plan.ts';
import type { CompleteArmature } from '../../../puppet/complete.ts';
import { emptyStance, forward, pointOn, skeletonOf } from '../../../puppet/kinematics.ts';
import { paintWithPlayhead, repaintPlayhead } from '../../state/playhead.ts';
import { currentBook } from '../../state/bookStore.ts';
import { useBook } from '../../state/use.ts';
import type { Compared } from './useCompared.ts';

/** Margin around the soles, as a part of their own span. */
const AROUND = 0.4;

export interface PlanViewProps {
  readonly plan: Plan;
  readonly armature: CompleteArmature;
  readonly compared: Compared | null;
}

export function PlanView({ plan, armature, compared }: PlanViewProps): ReactElement {
  const box = useRef<HTMLDivElement>(null);
  const svg = useRef<SVGSVGElement>(null);
  const words = useRef<HTMLParagraphElement>(null);
  const tieDowns = useBook((b) => b.poise.tieDowns);
  const camera = useBook((b) => b.puppet.view);
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
      const { soles, pads } = touchesAt(plan, armature, at);
      const { centreMm, spanMm } = frameOf(plan, soles, pads, at);
      svg.current.setAttribute('width', String(size.widthPx));
      svg.current.setAttribute('height', String(size.heightPx));
      drawPlanView(svg.current, { balance: plan.balance, step: at, soles, pads, camera, other: otherAt(compared, at), centreMm, pxPerMm: Math.min(size.widthPx, size.heightPx) / spanMm, ...size });
      if (words.current !== null) words.current.textContent = unseenWords(soles, pads, !Number.isNaN(plan.orderedRootMm[at * 3] ?? Number.NaN));
    });
    return () => {
      observer.disconnect();
      stop();
    };
  }, [plan, armature, compared, camera]);
  useEffect(repaintPlayhead, [tieDowns, plan]);
  return (
    <section className="plan-view" aria-label="From above">
      <div ref={box}>
        <svg ref={svg} role="img" aria-label="The set from above, its front below: soles, base of support, centre of mass (cross) with its error, extrapolated centre of mass (kite)" />
      </div>
      <p ref={words} className="unseen-words" />
      <p className="hint">From above. Cross: centre of mass, with its error dashed. Kite: where its motion takes it. Thick outline: the base it stands on.</p>
    </section>
  );
}

/** Soles and other bones that bear, as they lie at a step; none where there is no pose. */
function touchesAt(plan: Plan, armature: CompleteArmature, step: number): { readonly soles: readonly SoleSeen[]; readonly pads: readonly PadSeen[] } {
  const { orderedRootMm, orderedRotations, feet, balance, sourceTimeS } = plan;
  if (Number.isNaN(orderedRootMm[step * 3] ?? Number.NaN)) return { soles: [], pads: [] };
  const skeleton = skeletonOf(armature);
  const stance = emptyStance(skeleton);
  forward(skeleton, orderedRotations, step, [orderedRootMm[step * 3]!, orderedRootMm[step * 3 + 1]!, orderedRootMm[step * 3 + 2]!], stance);
  const { tieDowns } = currentBook().poise;
  const width = balance.touchNames.length;
  const stateOf = (name: string): TouchState => {
    const k = balance.touchNames.indexOf(name);
    if (k < 0 || Number.isNaN(balance.massMm[step * 3] ?? Number.NaN)) return 'unknown';
    // what nobody has seen carries nothing, whatever the take believes
    if (balance.unseen[step * width + k] === 1) return 'unseen';
    if (balance.touching[step * width + k] !== 1) return 'lifted';
    return tieDowns.some(({ foot, fromS, toS }) => foot === name && sourceTimeS[step]! >= fromS && sourceTimeS[step]! <= toS) ? 'tied' : 'stands';
  };
  const soles = feet.flatMap(({ name, bone }): readonly SoleSeen[] => {
    const sole = armature.bones[bone]?.sole;
    if (sole === null || sole === undefined) return [];
    const outlineMm = sole.outlineMm.flatMap(([x, z]) => {
      const [px, , pz] = pointOn(stance, bone, [x, -sole.dropMm, z]);
      return [px, pz];
    });
    return [{ name, outlineMm, state: stateOf(name) }];
  });
  const pads = balance.touchNames.slice(feet.length).flatMap((name): readonly PadSeen[] => {
    const bone = armature.bones.findIndex((one) => one.name === name);
    const state = stateOf(name);
    if (bone < 0 || state === 'lifted' || state === 'unknown') return [];
    const { along, lengthMm } = armature.bones[bone]!;
    // as the base of support has it: a bone that carries nothing bears with its end, another with its lower one
    const [start, end] = [pointOn(stance, bone, [0, 0, 0]), pointOn(stance, bone, [along[0] * lengthMm, along[1] * lengthMm, along[2] * lengthMm])];
    const [x, , z] = skeleton.parent.includes(bone) && start[1] < end[1] ? start : end;
    return [{ name, atMm: [x, z], state }];
  });
  return { soles, pads };
}

function otherAt(compared: Compared | null, step: number): { readonly atMm: readonly [number, number]; readonly word: string } | null {
  if (compared === null) return null;
  const { massMm } = compared.other.balance;
  const [x, z] = [massMm[step * 3] ?? Number.NaN, massMm[step * 3 + 2] ?? Number.NaN];
  return Number.isNaN(x) ? null : { atMm: [x, z], word: compared.which };
}

/** What is in the picture: the soles and the centre of mass, with room around; the same size while the soles keep their distance. */
function frameOf({ balance }: Plan, soles: readonly SoleSeen[], pads: readonly PadSeen[], step: number): { readonly centreMm: readonly [number, number]; readonly spanMm: number } {
  const points = [...soles.flatMap(({ outlineMm }) => outlineMm), ...pads.flatMap(({ atMm }) => atMm)];
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
