/** The clip on one leg: the margin from the figure's exact pose, straight from the truth, beside what the core makes of that pose and what is measured. */
import { fitTake } from '../../src/motion/fit/fitTake.ts';
import type { Track } from '../../src/pose/track.ts';
import { completeArmature } from '../../src/puppet/completeArmature.ts';
import type { Truth } from '../accuracy/truthFile.ts';
import { figure, NONE } from '../accuracy/words.ts';
import { markdownTable } from '../bench/document/markdownTable.ts';
import { clipBalance } from './clipBalance.ts';
import { figureArmature, marginOfTruth } from './figureArmature.ts';

/** Every so many steps a line. */
const EVERY = 6;

export interface OneLeg {
  /** Largest difference between the core's margin of the exact pose and the one added up by hand, mm. */
  readonly coreOffMm: number;
  readonly table: string;
}

export function oneLegTable(truth: Truth, track: Track): OneLeg {
  const document = figureArmature(truth);
  const armature = completeArmature(document);
  const { plan, measured, exact } = clipBalance(truth, track, fitTake(track, 1), document);
  const rows: string[][] = [];
  let coreOffMm = 0;
  for (let s = 0; s < plan.stepCount; s++) {
    const frame = truth.timesS.findIndex((t) => Math.abs(t - plan.sourceTimeS[s]!) < 1e-4);
    if (frame < 0) continue;
    const byHand = marginOfTruth(truth, frame, armature);
    coreOffMm = Math.max(coreOffMm, Math.abs(byHand - exact.standMm[s]!));
    if (s % EVERY !== 0) continue;
    const feet = `${truth.leftFootOnFloor[frame] === 1 ? 'left' : ''}${truth.rightFootOnFloor[frame] === 1 ? ' right' : ''}`.trim();
    rows.push([String(s + 1), feet, figure(byHand, 2), figure(exact.standMm[s]!, 2), figure(measured.standMm[s]!, 2), figure(measured.marginSigmaMm[s]!)]);
  }
  return { coreOffMm, table: markdownTable(['step', 'feet', 'by hand, mm|r', 'core, exact pose, mm|r', 'measured, mm|r', 'σ, mm|r'], rows.length > 0 ? rows : [[NONE]]) };
}
