/**
 * How well said errors hold: the share of true angles within them, overall and in each fifth of what is said.
 */
import { ERROR_CLASSES, TURN_CLASSES } from '../../src/motion/trust/errorClasses.ts';
import type { JointFrame } from './samples.ts';

export interface Coverage {
  readonly n: number;
  /** Share of errors within what was said. */
  readonly within: number;
  /** The same in each fifth, from the smallest said errors to the largest, and the mean of what was said there. */
  readonly fifths: readonly { readonly within: number; readonly saidDeg: number; readonly rmsDeg: number }[];
}

/** @param said what the model says of the whole class, degrees */
export function coverage(frames: readonly JointFrame[], said: (frame: JointFrame) => number): Coverage {
  const values = frames.flatMap((frame) => frame.deg.map((error) => ({ error: Math.abs(error), said: said(frame) })));
  values.sort((a, b) => a.said - b.said);
  const share = (some: readonly { error: number; said: number }[]): number =>
    some.filter((value) => value.error <= value.said).length / some.length;
  const fifths = Array.from({ length: 5 }, (_, k) => values.slice(Math.floor((k * values.length) / 5), Math.floor(((k + 1) * values.length) / 5)))
    .filter((some) => some.length > 0)
    .map((some) => ({
      within: share(some), saidDeg: some.reduce((sum, value) => sum + value.said, 0) / some.length,
      rmsDeg: Math.sqrt(some.reduce((sum, value) => sum + value.error ** 2, 0) / some.length),
    }));
  return { n: values.length, within: share(values), fifths };
}

/** Root mean square of the errors of some frames, degrees; NaN of none. */
export function rmsDeg(frames: readonly JointFrame[]): number {
  const all = frames.flatMap(({ deg }) => deg);
  return Math.sqrt(all.reduce((sum, error) => sum + error ** 2, 0) / all.length);
}

export interface UnsureFacts {
  readonly share: number;
  readonly sureRmsDeg: number;
  readonly unsureRmsDeg: number;
}

export function unsureFacts(frames: readonly JointFrame[]): UnsureFacts {
  const unsure = frames.filter((frame) => frame.unsure !== 0 || frame.bridged);
  return { share: unsure.length / frames.length, sureRmsDeg: rmsDeg(frames.filter((frame) => frame.unsure === 0 && !frame.bridged)), unsureRmsDeg: rmsDeg(unsure) };
}

const percent = (share: number): string => (Number.isFinite(share) ? `${(share * 100).toFixed(0)} %` : '–');
const degrees = (value: number): string => (Number.isFinite(value) ? value.toFixed(1) : '–');

const fifthWords = ({ fifths }: Coverage): string => fifths.map(({ within, saidDeg, rmsDeg: rms }) => `${percent(within)} (${degrees(saidDeg)} → ${degrees(rms)})`).join(', ');

/** Rows of the classes that have frames, then of all. */
function rowsOf(frames: readonly JointFrame[], names: readonly string[], row: (name: string, some: readonly JointFrame[]) => string): string[] {
  return [...names.map((name, c): [string, JointFrame[]] => [name, frames.filter(({ errorClass }) => errorClass === c)]), ['all', frames] as const]
    .flatMap(([name, some]) => (some.length === 0 ? [] : [row(name, some)]));
}

/** One row a class: coverage, by fifths, and what is flagged. */
export function coverageTable(frames: readonly JointFrame[], said: (frame: JointFrame) => number): string[] {
  return [
    '| joints | values | within | by fifths of the said error: within (said → rms, °) | unsure | rms sure, ° | rms unsure, ° |',
    '| --- | --: | --: | --- | --: | --: | --: |',
    ...rowsOf(frames, ERROR_CLASSES, (name, some) => {
      const found = coverage(some, said);
      const { share, sureRmsDeg, unsureRmsDeg } = unsureFacts(some);
      return `| ${name} | ${found.n} | ${percent(found.within)} | ${fifthWords(found)} | ${percent(share)} | ${degrees(sureRmsDeg)} | ${degrees(unsureRmsDeg)} |`;
    }),
  ];
}

/** The same of turns about the bone: coverage, by fifths, and how many are beyond the limit. @param frames of turnFrames */
export function turnTable(frames: readonly JointFrame[], said: (frame: JointFrame) => number, limitDeg: readonly number[]): string[] {
  return [
    '| turn about the bone | values | within | by fifths of the said error: within (said → rms, °) | said beyond the limit | rms, ° |',
    '| --- | --: | --: | --- | --: | --: |',
    ...rowsOf(frames, TURN_CLASSES, (name, some) => {
      const found = coverage(some, said);
      const beyond = some.filter((frame) => said(frame) > limitDeg[frame.errorClass]!).length / some.length;
      return `| ${name} | ${found.n} | ${percent(found.within)} | ${fifthWords(found)} | ${percent(beyond)} | ${degrees(rmsDeg(some))} |`;
    }),
  ];
}
