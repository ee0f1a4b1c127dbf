/**
 * Whether the errors that a motion carries hold: the share of true angles within `errorDeg`, overall and in each fifth of its range.
 */
import { JOINT_COUNT } from '../../src/motion/joints.ts';
import { STATE_MISSING } from '../../src/motion/motion.ts';
import { ERROR_CLASSES, JOINT_CLASS } from '../../src/motion/trust/errorClasses.ts';
import { markdownTable } from '../bench/document/markdownTable.ts';
import { angleErrors } from '../calibrate/angleErrors.ts';
import { coverage } from '../calibrate/coverage.ts';
import type { JointFrame } from '../calibrate/samples.ts';
import { CLIP_SETS } from '../clips/clip.ts';
import type { MeasuredClip } from './measuredClip.ts';
import { figure, percent } from './words.ts';

/** What {@link coverage} needs of a joint in one frame. */
type Judged = Pick<JointFrame, 'errorClass' | 'deg' | 'errorDeg'>;

function judged({ truth, fittedMotion: motion }: MeasuredClip): Judged[] {
  return truth.timesS.flatMap((_, frame) => angleErrors(truth, motion, frame).flatMap(({ errorClass, joint, deg }): Judged[] => {
    const at = frame * JOINT_COUNT + joint;
    const said = motion.errorDeg[at]!;
    if (motion.state[at] === STATE_MISSING || !Number.isFinite(said)) return [];
    // Joints that share one measured turn carry their part of its error; the turn as a whole is what is compared.
    return [{ errorClass, deg, errorDeg: said / JOINT_CLASS[joint]!.share }];
  }));
}

export function coverageOfClips(clips: readonly MeasuredClip[]): string {
  const rows = CLIP_SETS.flatMap((set) => {
    const all = clips.filter((clip) => clip.set === set).flatMap(judged);
    const row = (name: string, some: readonly Judged[]): string[] => {
      const found = coverage(some as readonly JointFrame[], ({ errorDeg }) => errorDeg);
      return [
        name, set, String(found.n), found.n === 0 ? '–' : percent(found.within),
        ...found.fifths.map(({ within, saidDeg }) => `${percent(within)} (${figure(saidDeg)}°)`),
      ];
    };
    return [...ERROR_CLASSES.map((name, c) => row(name, all.filter(({ errorClass }) => errorClass === c))), row('**all**', all)];
  });
  return markdownTable(['joints', 'half', 'values|r', 'within|r', 'smallest fifth (mean said)|r', 'second|r', 'third|r', 'fourth|r', 'largest|r'], rows);
}
