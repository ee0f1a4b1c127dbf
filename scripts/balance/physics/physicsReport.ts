/** The random poses in the engine, as tables: agreement, and every miss with its margin. */
import { figure } from '../../accuracy/words.ts';
import { markdownTable } from '../../bench/document/markdownTable.ts';
import { FALLEN_FROM_DEG, STANDS_BELOW_DEG, type TriedPose } from './tryPoses.ts';

const NEAR_MM = 2;

export function isMiss({ marginMm, tiltDeg }: TriedPose): boolean {
  return marginMm > 0 ? !(tiltDeg < STANDS_BELOW_DEG) : !(tiltDeg > FALLEN_FROM_DEG);
}

export function physicsReport(tried: readonly TriedPose[]): string {
  const line = (what: string, some: readonly TriedPose[]): string[] => {
    const stands = some.filter(({ tiltDeg }) => tiltDeg < STANDS_BELOW_DEG).length;
    const falls = some.filter(({ tiltDeg }) => tiltDeg > FALLEN_FROM_DEG).length;
    return [what, String(some.length), String(stands), String(falls), String(some.length - stands - falls)];
  };
  const of = (verdict: string): readonly TriedPose[] => tried.filter((pose) => pose.verdict === verdict);
  const near = tried.filter(({ marginMm }) => Math.abs(marginMm) < NEAR_MM);
  const misses = tried.filter(isMiss);
  return [
    markdownTable(['judged', 'poses|r', 'stand|r', 'fall|r', 'between|r'], [
      line('holds', of('holds')), line('falls', of('falls')), line('marginal, inside the edge', of('marginal').filter(({ marginMm }) => marginMm > 0)),
      line('marginal, outside', of('marginal').filter(({ marginMm }) => marginMm <= 0)), line(`within ${NEAR_MM} mm of the edge, inside`, near.filter(({ marginMm }) => marginMm > 0)),
      line(`within ${NEAR_MM} mm of the edge, outside`, near.filter(({ marginMm }) => marginMm <= 0)), line('all', tried),
    ]),
    `${tried.length - misses.length} of ${tried.length} end on the side of the edge on which the margin has them; ${misses.length === 0 ? 'none misses.' : 'the misses:'}`,
    ...(misses.length === 0 ? [] : [markdownTable(['puppet', 'seed', 'feet|r', 'something in a hand', 'margin, mm|r', 'tilt, °|r'], misses.map(({ puppet, seed, feet, withProp, marginMm, tiltDeg }) =>
      [puppet, String(seed), String(feet), withProp ? 'yes' : 'no', figure(marginMm, 2), figure(tiltDeg, 0)]))]),
  ].join('\n\n');
}
