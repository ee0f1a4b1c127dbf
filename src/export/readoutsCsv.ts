/**
 * The performer's readouts at the steps as a table: ISB angles, direction and twist, trunk, head and hands (RFC 4180).
 */
import { JOINT, JOINT_COUNT } from '../motion/joints.ts';
import { READOUTS, readoutSeries } from '../motion/readouts/catalogue.ts';
import { wholeErrorDeg } from '../motion/readouts/readoutError.ts';
import type { Readout } from '../motion/readouts/readout.ts';
import { JOINT_CLASS } from '../motion/trust/errorClasses.ts';
import { unsureWords } from '../motion/trust/unsure.ts';
import type { Plan } from '../plan/plan.ts';
import type { Poses } from '../timing/poses.ts';
import { csvNumber, csvText } from './csv.ts';
import { PLACES } from './rounding.ts';

/** A value in a zone where it can't be told is given all the same, with this behind it. */
const SINGULAR_MARK = '~';

/**
 * Columns: step, exposure, film time and source time; then for each readout its value in degrees, with "~" behind it in a
 * zone where it can't be told (docs/method.md); for each joint after its last readout the error of its angle (one sigma; of chest and
 * head of the whole turn against pelvis and chest, as it is read), of a limb that turns about its own bone the error of that turn, and why
 * it is unsure. Readouts that are inferred and not seen say so in their head. Left and right are the performer's own.
 *
 * @param poses the performer's poses at the plan's steps
 */
export function readoutsCsv(plan: Plan, poses: Poses): string {
  const series = READOUTS.map((readout) => readoutSeries(poses, readout));
  const lines = [['step', 'exposure', 'film time (s)', 'source time (s)', ...READOUTS.flatMap(headOf)].map(csvText).join(',')];
  for (let s = 0; s < plan.stepCount; s++) {
    const cells = [
      String(s + 1), String(plan.exposure[s]!), csvNumber(plan.filmTimeS[s]!, PLACES.seconds), csvNumber(plan.sourceTimeS[s]!, PLACES.seconds),
    ];
    READOUTS.forEach((readout, k) => {
      const value = csvNumber(series[k]!.deg[s]!, PLACES.degrees);
      cells.push(value !== '' && series[k]!.singular[s] === 1 ? `${value}${SINGULAR_MARK}` : value);
      if (!endsJoint(k)) return;
      const at = s * JOINT_COUNT + JOINT[readout.joint];
      cells.push(csvNumber(wholeErrorDeg(readout.joint, poses.errorDeg[at]!), PLACES.error));
      if (turnsAboutBone(readout)) cells.push(csvNumber(poses.turnErrorDeg[at]!, PLACES.error));
      cells.push(csvText(unsureWords(poses.unsure[at]!).join('; ')));
    });
    lines.push(cells.join(','));
  }
  return `${lines.join('\r\n')}\r\n`;
}

function endsJoint(k: number): boolean {
  return READOUTS[k + 1]?.joint !== READOUTS[k]!.joint;
}

function turnsAboutBone({ joint }: Readout): boolean {
  return JOINT_CLASS[JOINT[joint]]!.bone !== null;
}

function headOf(readout: Readout, k: number): string[] {
  const { id, joint, label, from } = readout;
  const said = label.includes('inferred') || from !== 'inferred' ? label : `${label} (inferred)`;
  const head = [`${id}: ${said} (deg)`];
  return endsJoint(k) ? [...head, `${joint} error (deg)`, ...(turnsAboutBone(readout) ? [`${joint} turn error (deg)`] : []), `${joint} unsure`] : head;
}
