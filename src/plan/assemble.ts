/** The plan's own fields out of what the stages made. */
import { flagWarnings } from './flagWarnings.ts';
import type { Motion } from '../motion/motion.ts';
import { foundCount, frameCount, type Track } from '../pose/track.ts';
import type { MovedPuppet } from '../puppet/movePuppet.ts';
import type { PuppetSettings } from '../puppet/puppetSettings.ts';
import { performerHeightM } from '../puppet/timeScale.ts';
import { datumsOf } from './datums.ts';
import { jointAngles } from './jointAngles.ts';
import type { Ordered } from './ordered.ts';
import type { Plan } from './plan.ts';
import type { Stepped } from './stepped.ts';
import { travelOf } from './travel.ts';
import { turnWarnings } from './turnWarnings.ts';

export function assemble(
  track: Track, motion: Motion, { steps, posesAt }: Stepped, moved: MovedPuppet, ordered: Ordered,
  rate: number, on: number, datum: PuppetSettings['datum'], view: PuppetSettings['view'],
): Omit<Plan, 'moments' | 'limbRates' | 'headAndShoulders' | 'bentTime' | 'balance'> {
  const missed = frameCount(track) - foundCount(track);
  const warnings = [...motion.warnings, ...flagWarnings(moved.joints, moved.flags), ...turnWarnings(moved.joints)];
  if (missed > 0) warnings.unshift(`No person was found in ${missed} of ${frameCount(track)} frames.`);
  const { orders, root, points, pointMm } = ordered;
  return {
    rate,
    on,
    stepCount: steps.count,
    joints: moved.joints,
    exposure: steps.exposure,
    holds: steps.holds,
    exposureCount: steps.count === 0 ? 0 : steps.exposure[steps.count - 1]! + steps.holds[steps.count - 1]! - 1,
    filmTimeS: steps.filmTimeS,
    sourceTimeS: steps.sourceTimeS,
    rotations: moved.rotations,
    angleDeg: jointAngles(moved),
    orderedRotations: orders.rotations,
    orderedAngleDeg: orders.angleDeg,
    incrementDeg: orders.incrementDeg,
    turnDeg: orders.turnDeg,
    keyTurns: orders.keyTurns,
    flags: moved.flags,
    confidence: moved.confidence,
    state: moved.state,
    errorDeg: moved.errorDeg,
    turnErrorDeg: moved.turnErrorDeg,
    unsure: moved.unsure,
    rootM: posesAt(0).rootM,
    rootMm: moved.rootMm,
    orderedRootMm: root.root,
    feet: moved.feet.map(({ name, bone }) => ({ name, bone })),
    planted: moved.stands,
    holding: root.holding,
    points,
    ...travelOf(pointMm, points.length, view),
    datums: datumsOf(points, pointMm, datum),
    performerHeightM: performerHeightM(motion.legLengthM),
    fitted: motion.fitted,
    usedCutoffHz: motion.usedCutoffHz,
    warnings,
  };
}
