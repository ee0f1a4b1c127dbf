/**
 * The plan beside the one on the screen: with the correction that is looked at, or, where corrections are applied, without any. It is
 * made by a worker of its own, as the book's plan is made, so that what is shown is what would stand on the set.
 */
import { useEffect, useRef, useState } from 'react';
import { useStore } from 'zustand';
import type { Plan } from '../../../plan/plan.ts';
import { STANDARD_ARMATURE } from '../../../puppet/standard.ts';
import { bodyFor } from '../../fit/fitting.ts';
import { createPlanAsker, type PlanAsker, type PlanWish } from '../../plan/askPlan.ts';
import { currentBook } from '../../state/bookStore.ts';
import { poiseView } from '../../state/poiseView.ts';
import { showProblem } from '../../state/problems.ts';
import { session } from '../../state/session.ts';
import { useBook } from '../../state/use.ts';
import { otherCorrections, type Which } from './otherCorrections.ts';

export interface Compared {
  /** The plan on the screen that it was made for. */
  readonly of: Plan;
  readonly other: Plan;
  readonly which: Which;
}

/** @param plan that on the screen. @returns `null` while nothing is compared or the other plan is not there yet */
export function useCompared(plan: Plan | null): Compared | null {
  const corrections = useBook((b) => b.poise.corrections);
  const tried = useStore(poiseView, (s) => s.tried);
  const besideBefore = useStore(poiseView, (s) => s.besideBefore);
  const [compared, setCompared] = useState<Compared | null>(null);
  const asker = useRef<PlanAsker | null>(null);
  const wanted = useRef<{ readonly wish: PlanWish; readonly of: Plan; readonly which: Which } | null>(null);
  useEffect(() => () => {
    asker.current?.end();
    asker.current = null;
  }, []);
  useEffect(() => {
    const other = otherCorrections(corrections, tried, besideBefore);
    const { track } = session.getState();
    if (plan === null || track === null || other === null) {
      wanted.current = null;
      asker.current?.forget();
      return;
    }
    asker.current ??= createPlanAsker({
      onPlan: (wish, made) => {
        const asked = wanted.current;
        if (asked?.wish === wish) setCompared({ of: asked.of, other: made, which: asked.which });
      },
      onProblem: (_wish, thrown) => showProblem(thrown),
    });
    const { settings, armature, puppet, timing, poise } = currentBook();
    const wish: PlanWish = { track, body: bodyFor(track, settings.captureFactor), armature: armature ?? STANDARD_ARMATURE, puppet, timing, poise: { ...poise, corrections: [...other.corrections] }, settings };
    wanted.current = { wish, of: plan, which: other.which };
    asker.current.ask(wish);
  }, [plan, corrections, tried, besideBefore]);
  const still = otherCorrections(corrections, tried, besideBefore);
  return compared !== null && compared.of === plan && compared.which === still?.which ? compared : null;
}
