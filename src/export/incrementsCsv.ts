/**
 * The plan as a table for a spreadsheet: one row a step, units in the head of each column (RFC 4180: CRLF, quotes doubled).
 */
import { unsureWords } from '../motion/trust/unsure.ts';
import type { Plan, PlanJoint } from '../plan/plan.ts';
import { csvNumber, csvText } from './csv.ts';
import { turnsFreely } from '../puppet/armature.ts';
import { flagWords } from './flagWords.ts';
import { stateWord } from './planJson.ts';
import { clockHour, PLACES } from './rounding.ts';

/**
 * Columns: step and exposure (from 1), exposures for which it is held, film time and source time in seconds, then for each joint its angle and increment in
 * degrees (a hinge's angle is headed "flexion", a swivel's "twist", a ball's "turn from rest"), for a ball also the
 * increment as a turn about the parent's forward, up and right axes, its state, the error of its angle (one sigma), for a ball also that
 * of its turn about the bone, and why it is unsure (empty where it is not); at the end the worst state of the row.
 * Joints that the footage can never show are headed "(not observable)". Cells that are not known are empty.
 *
 * @returns the file's text, last line ended too
 */
export function incrementsCsv(plan: Plan): string {
  const lines: string[] = [];
  const head = ['step', 'exposure', 'held for (exposures)', 'film time (s)', 'source time (s)', ...plan.joints.flatMap(columnsOf), ...plan.points.flatMap(pointColumns), 'state of the step'];
  lines.push(head.map(csvText).join(','));
  const width = plan.joints.length;
  const datums = new Map(plan.datums.map((datum) => [`${datum.step} ${datum.point}`, datum]));
  for (let s = 0; s < plan.stepCount; s++) {
    const cells = [
      String(s + 1), String(plan.exposure[s]!), String(plan.holds[s]!), csvNumber(plan.filmTimeS[s]!, PLACES.seconds),
      csvNumber(plan.sourceTimeS[s]!, PLACES.seconds),
    ];
    let worst = 0;
    for (let p = 0; p < width; p++) {
      const at = s * width + p;
      const { kind } = plan.joints[p]!;
      cells.push(
        csvNumber(plan.angleDeg[at]!, PLACES.degrees), csvNumber(plan.orderedAngleDeg[at]!, PLACES.degrees), csvNumber(plan.incrementDeg[at]!, PLACES.turn),
      );
      if (turnsFreely(kind)) for (let c = 0; c < 3; c++) cells.push(csvNumber(plan.turnDeg[at * 3 + c]!, PLACES.turn));
      if (kind === 'screw') cells.push(csvNumber(plan.keyTurns[at]!, PLACES.turn));
      const state = plan.state[at]!;
      cells.push(csvText(stateWord(state)), csvNumber(plan.errorDeg[at]!, PLACES.error));
      if (turnsFreely(kind)) cells.push(csvNumber(plan.turnErrorDeg[at]!, PLACES.error));
      cells.push(csvText(unsureWords(plan.unsure[at]!).join('; ')), csvText(flagWords(plan.flags[at]!).join('; ')));
      worst = Math.max(worst, state);
    }
    plan.points.forEach((point, c) => {
      const at = s * plan.points.length + c;
      const datum = datums.get(`${s + 1} ${point.name}`);
      cells.push(
        csvNumber(plan.travelMm[at]!, PLACES.millimetres), csvNumber(clockHour(plan.hour[at]!), PLACES.hour), csvNumber(plan.towardMm[at]!, PLACES.millimetres),
        csvNumber(datum?.heightMm ?? Number.NaN, PLACES.millimetres), csvNumber(datum?.fromMarkMm ?? Number.NaN, PLACES.millimetres),
      );
    });
    cells.push(csvText(stateWord(worst)));
    lines.push(cells.join(','));
  }
  return `${lines.join('\r\n')}\r\n`;
}

function columnsOf({ name, kind, observable }: PlanJoint): string[] {
  const who = observable ? name : `${name} (not observable)`;
  const angle = kind === 'hinge' ? 'flexion' : kind === 'swivel' ? 'twist' : kind === 'screw' ? 'opening' : 'turn from rest';
  const key = kind === 'screw' ? [`${who} key (turns)`] : [];
  const turns = turnsFreely(kind) ? ['forward', 'up', 'right'].map((axis) => `${who} turn about ${axis} axis (deg)`) : [];
  const turnError = turnsFreely(kind) ? [`${who} turn error (deg)`] : [];
  return [
    `${who} ${angle} (deg)`, `${who} ordered (deg)`, `${who} increment (deg)`, ...turns, ...key, `${who} state`, `${who} error (deg)`, ...turnError, `${who} unsure`, `${who} flags`,
  ];
}

function pointColumns({ name }: Plan['points'][number]): string[] {
  return [`${name} travel (mm)`, `${name} clock hour`, `${name} toward lens (mm)`, `${name} height (mm)`, `${name} from mark (mm)`];
}
