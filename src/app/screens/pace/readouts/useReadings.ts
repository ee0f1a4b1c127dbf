/** The readouts of a joint at the steps of the plan, from the worker; one question at a time, and the former answer until the next. */
import { useEffect, useRef, useState } from 'react';
import type { JointName } from '../../../../motion/joints.ts';
import type { Readings } from '../../../../motion/readouts/readings.ts';
import type { Plan } from '../../../../plan/plan.ts';
import { askReadings } from '../../../state/planning.ts';
import { showProblem } from '../../../state/problems.ts';

export function useReadings(plan: Plan, joint: JointName): Readings | null {
  const [readings, setReadings] = useState<Readings | null>(null);
  const asking = useRef(false);
  const wanted = useRef<{ readonly plan: Plan; readonly joint: JointName } | null>(null);
  useEffect(() => {
    wanted.current = { plan, joint };
    if (asking.current) return;
    const next = async (): Promise<void> => {
      asking.current = true;
      try {
        while (wanted.current !== null) {
          const now = wanted.current;
          wanted.current = null;
          const answer = await askReadings(now.joint);
          // Of a plan that was overtaken there may be other steps; its successor asks again.
          if (answer !== null && wanted.current === null) setReadings(answer);
        }
      } catch (thrown) {
        showProblem(thrown);
      } finally {
        asking.current = false;
      }
    };
    void next();
  }, [plan, joint]);
  useEffect(() => () => { wanted.current = null; }, []);
  return readings !== null && readings.joint === joint ? readings : null;
}
