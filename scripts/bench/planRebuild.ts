/**
 * Times the making of a plan: anew, and after the changes a person makes all the time. Runs in Node and in a page alike, so it
 * takes its clock as an argument and touches nothing of either.
 */
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import { createPlanner } from '../../src/plan/makePlan.ts';
import { DEFAULT_SETTINGS, type PlanSettings } from '../../src/plan/settings.ts';
import type { Track } from '../../src/pose/track.ts';
import { STANDARD_ARMATURE } from '../../src/puppet/standard.ts';

/** Milliseconds of every run, by what was done. */
export type PlanTimes = Readonly<Record<string, readonly number[]>>;

const WARM_UP = 5;
const RUNS = 30;

function timed(nowMs: () => number, work: (run: number) => unknown): number[] {
  const times: number[] = [];
  for (let run = 0; run < WARM_UP + RUNS; run += 1) {
    const startMs = nowMs();
    work(run);
    if (run >= WARM_UP) times.push(nowMs() - startMs);
  }
  return times;
}

/**
 * @param track its length decides the result
 * @param nowMs a clock of at least 0.1 ms resolution
 */
export function timePlans(track: Track, nowMs: () => number): PlanTimes {
  const planner = createPlanner();
  const body = fitTake(track, DEFAULT_SETTINGS.captureFactor);
  const cutoff = (run: number): PlanSettings => ({ ...DEFAULT_SETTINGS, cutoffHz: run % 2 === 0 ? 6 : 5 });
  const plan = (change: Partial<PlanSettings>): unknown => planner.plan(track, STANDARD_ARMATURE, { ...DEFAULT_SETTINGS, ...change });
  // Every run changes something, or the planner would hand out what it has.
  return {
    'from nothing': timed(nowMs, () => createPlanner().plan(track, STANDARD_ARMATURE, DEFAULT_SETTINGS)),
    'after a change of the cut-off': timed(nowMs, (run) => plan({ cutoffHz: run % 2 === 0 ? 6 : 5 })),
    'with a fitted body, after a change of the cut-off': timed(nowMs, (run) => planner.plan(track, STANDARD_ARMATURE, cutoff(run), { body })),
    'of that, the performer’s joint rotations in every frame': timed(nowMs, (run) => planner.motion(track, cutoff(run), body)),
    'with these, the puppet’s joint angles in every frame': timed(nowMs, (run) => planner.frameAngles(track, STANDARD_ARMATURE, cutoff(run), { body })),
    'after a change of exposures a second': timed(nowMs, (run) => plan({ rate: run % 2 === 0 ? 24 : 25 })),
    'after a change of on twos / on ones': timed(nowMs, (run) => plan({ on: run % 2 === 0 ? 2 : 1 })),
    'from nothing, on ones at 60 a second': timed(nowMs, () => createPlanner().plan(track, STANDARD_ARMATURE, { ...DEFAULT_SETTINGS, rate: 60, on: 1 })),
  };
}
