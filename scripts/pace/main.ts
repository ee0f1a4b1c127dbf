/**
 * `npm run pace`: how well moves, pauses and leads are found in motions in which they are known.
 *
 *     npm run pace -- [--write]
 *
 * --write puts the tables into docs/pace.md.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { lagBetween } from '../../src/timing/moments/lag.ts';
import { findMoments } from '../../src/timing/moments/findMoments.ts';
import { limbSpeeds, noiseDegPerS } from '../../src/timing/moments/limbSpeed.ts';
import { LIMBS } from '../../src/timing/moments/moments.ts';
import { replaceBetweenMarkers } from '../bench/document/betweenMarkers.ts';
import { markdownTable } from '../bench/document/markdownTable.ts';
import { PROJECT_FOLDER } from '../serve/projectFolder.ts';
import { clipChecks } from './clipChecks.ts';
import { clipMomentRows } from './clipMoments.ts';
import { lowRateRow } from './lowRateRows.ts';
import { percentile } from './percentile.ts';
import { realNoiseRows } from './realNoise.ts';
import { realSquatsLine } from './realSquats.ts';
import { swingRow } from './swingRows.ts';
import { syntheticMotion, trueAngleDeg, uniform, type TrueMove } from './syntheticMotion.ts';
import { wanderRow } from './wanderRows.ts';

const STEP_S = 1 / 12;
/** Of single frames of real footage, one sigma: docs/smoothing.md. */
const REAL_TREMBLE_DEG = 0.49;
const SEEDS = 40;
const MOVES: readonly TrueMove[] = [
  { startS: 0.5, endS: 1.1, byDeg: 60 }, { startS: 1.5, endS: 2.5, byDeg: 30 }, { startS: 3, endS: 3.3, byDeg: -20 }, { startS: 3.3, endS: 4.2, byDeg: 50 },
  { startS: 4.7, endS: 6.2, byDeg: -25 },
];
const SWINGS = Array.from({ length: 9 }, (_, k): TrueMove => ({ startS: k * 0.6, endS: (k + 1) * 0.6, byDeg: k % 2 === 0 ? 45 : -45 }));

/** Size, tremble and wandering, degrees. */
const SMALL_SWINGS = [[5, 0, 0], [5, 0.5, 0], [5, 0.5, 0.5], [5, 0.5, 1], [8, 0.5, 1], [12, 0.5, 1], [12, 0.5, 2]] as const;

function momentRow(noiseDeg: number): string[] {
  const edges: number[] = [];
  let [right, false_, speed] = [0, 0, 0];
  for (let seed = 1; seed <= SEEDS; seed++) {
    const motion = syntheticMotion([{ joint: 'rightElbow', moves: MOVES }], { lengthS: 7, framesPerS: 30, noiseDeg, seed });
    speed += noiseDegPerS(limbSpeeds(motion, 1).limbs[LIMBS.indexOf('rightArm')]!) / SEEDS;
    const found = findMoments(motion, 1).moves.filter((move) => move.of === 'rightArm');
    if (found.length === MOVES.length) {
      right += 1;
      found.forEach(({ startS, endS }, k) => edges.push(Math.abs(startS - MOVES[k]!.startS) / STEP_S, Math.abs(endS - MOVES[k]!.endS) / STEP_S));
    }
    const swing = findMoments(syntheticMotion([{ joint: 'leftElbow', moves: SWINGS }], { lengthS: 5.4, framesPerS: 30, noiseDeg, seed: seed + 100 }), 1);
    false_ += swing.pauses.filter((pause) => pause.of === 'leftArm' && pause.fromS > 0.1 && pause.toS < 5.3).length;
  }
  const share = edges.length === 0 ? 0 : edges.filter((edge) => edge < 1).length / edges.length;
  return [`${noiseDeg}°`, speed.toFixed(1), `${right} of ${SEEDS}`, percentile(edges, 0.5).toFixed(2), percentile(edges, 0.95).toFixed(2), `${Math.round(100 * share)} %`, String(false_)];
}

/** What that tremble makes of a limb's turn in a step, one sigma, degrees, once it is smoothed. */
function realStepDeg(): number {
  return noiseDegPerS(limbSpeeds(syntheticMotion([], { lengthS: 20, framesPerS: 30, noiseDeg: REAL_TREMBLE_DEG, seed: 1 }), 1).limbs[LIMBS.indexOf('rightArm')]!) * STEP_S;
}

function leadRow(noiseDeg: number): string[] {
  const off: number[] = [];
  const sure: number[] = [];
  for (const lag of [-4, -2.5, -1, 0, 1, 2.5, 4]) {
    for (let seed = 1; seed <= SEEDS; seed++) {
      const random = uniform(seed);
      const speed = (startS: number): Float64Array => {
        const moves = [{ startS, endS: startS + 0.9, byDeg: 50 }, { startS: startS + 1.8, endS: startS + 2.5, byDeg: -35 }];
        return Float64Array.from({ length: 60 }, (_, s) => Math.abs(trueAngleDeg(moves, s * STEP_S) - trueAngleDeg(moves, (s - 1) * STEP_S)) + (random() - 0.5) * 2 * Math.sqrt(3) * noiseDeg);
      };
      const found = lagBetween(speed(0.8), speed(0.8 + lag * STEP_S), 12)!;
      off.push(Math.abs(found.steps - lag));
      sure.push(found.confidence);
    }
  }
  return [`${noiseDeg}°`, percentile(off, 0.5).toFixed(2), percentile(off, 0.95).toFixed(2), percentile(off, 1).toFixed(2), percentile(sure, 0.5).toFixed(2)];
}

const { values } = parseArgs({ options: { write: { type: 'boolean', default: false } } });
const report = [
  `Five moves of 20° to 60° with pauses between four of them, 30 frames a second, smoothed as footage is; ${SEEDS} runs each. Real single frames tremble by ${REAL_TREMBLE_DEG}° (docs/smoothing.md). Starts and ends are those of the runs that found all five. A step is one on twos at 24.`, '',
  markdownTable(['tremble of a frame', 'noise of the speed, ° a second', 'all five moves found', 'starts and ends off, steps: median', '95 %', 'within one step', 'pauses made up in a swing that never stops'], [0, 0.25, 0.5, 0.75, 1].map(momentRow)), '',
  `Slow wandering of every joint on top of a tremble of 0.5° (one sigma; noise that forgets itself in 0.3 s): an elbow goes 70° and back, nothing else moves; ${SEEDS} runs each, 5.5 s at 30 frames a second. A move is seen where a found one covers half of it or more, and made up where less than a third of it is true.`, '',
  markdownTable(['wandering of an angle', 'noise of the speed, ° a second: leg, body', 'arm: moves seen', 'made up', 'off, steps: median, 95 %', 'body: moves seen', 'made up', 'off, steps: median, 95 %', 'moves made up in a still limb, each'], [0, 0.5, 1, 2, 3].map((deg) => wanderRow(deg, SEEDS))), '',
  `Small swings of the head that never stop for 4.2 s, 0.7 s each; rest before and after; ${SEEDS} runs each.`, '',
  markdownTable(['swing', 'tremble of a frame', 'wandering of an angle', 'swings seen', 'of their time in a move', 'first start and last end off, steps, median'], SMALL_SWINGS.map(([byDeg, noiseDeg, wanderDeg]) => swingRow(byDeg, noiseDeg, wanderDeg, SEEDS))), '',
  `Squats of both legs at five frames a second, where nothing is smoothed: four moves of the body, one turn without a pause; ${SEEDS} runs each. A frame is 0.2 s.`, '',
  markdownTable(['tremble of a frame', 'the four moves and no others', 'starts and ends off, s: median', '95 %', 'the four pauses and no others'], [0, 0.5, 1, 2].map((deg) => lowRateRow(deg, SEEDS))), '',
  'The own clips from video (model full), against what the same rules find in the truth beside them. Made up: how many, and the largest. Off: starts and ends of the moves seen, median, steps.', '',
  markdownTable(['clip', 'limbs: moves seen', 'made up', 'off', 'body: moves seen', 'made up', 'off', 'pauses of the body, truth, s', 'as found, s'], await clipMomentRows()), '',
  await realSquatsLine(), '',
  'Noise of the speed that is measured on posed video, ° a second, one sigma. Most limbs lie above the table’s range, and the rows above do not speak for those. How much of it is the pose’s error and how much is left of quick moves was not told apart.', '',
  markdownTable(['take', ...LIMBS.map((limb) => limb.replace(/[A-Z]/, (letter) => ` ${letter.toLowerCase()}`))], await realNoiseRows()), '',
  `Two limbs with the same two moves, one of them 0 to 4 steps later or earlier; noise on each step’s turn; ${7 * SEEDS} runs each. A tremble of ${REAL_TREMBLE_DEG}° makes ${realStepDeg().toFixed(2)}° a step.`, '',
  markdownTable(['noise a step', 'lag off, steps: median', '95 %', 'most', 'confidence, median'], [0, 0.25, 0.5, 1].map(leadRow)), '',
  ...(await clipChecks()),
].join('\n');
console.log(report);
if (values.write) {
  const file = join(PROJECT_FOLDER, 'docs', 'pace.md');
  writeFileSync(file, replaceBetweenMarkers(readFileSync(file, 'utf8'), 'moves and leads', report));
}
