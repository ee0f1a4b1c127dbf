/**
 * How well said errors hold: the share of true angles within them, overall and in each fifth of what is said.
 */
import { ERROR_CLASSES } from '../../src/motion/trust/errorClasses.ts';
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

/** The same of the turn about the bone, which no error covers; NaN where there is none. */
export function turnRmsDeg(frames: readonly JointFrame[]): number {
  const all = frames.map(({ turnDeg }) => turnDeg).filter((turn) => !Number.isNaN(turn));
  return Math.sqrt(all.reduce((sum, turn) => sum + turn ** 2, 0) / all.length);
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

/** One row a class: coverage, by fifths, and what is flagged. */
export function coverageTable(frames: readonly JointFrame[], said: (frame: JointFrame) => number): string[] {
  const rows = [
    '| joints | values | within | by fifths of the said error: within (said → rms, °) | unsure | rms sure, ° | rms unsure, ° | turn about the bone, rms, ° |',
    '| --- | --: | --: | --- | --: | --: | --: | --: |',
  ];
  const row = (name: string, some: readonly JointFrame[]): void => {
    if (some.length === 0) return;
    const { n, within, fifths } = coverage(some, said);
    const { share, sureRmsDeg, unsureRmsDeg } = unsureFacts(some);
    const parts = fifths.map((fifth) => `${percent(fifth.within)} (${degrees(fifth.saidDeg)} → ${degrees(fifth.rmsDeg)})`).join(', ');
    rows.push(`| ${name} | ${n} | ${percent(within)} | ${parts} | ${percent(share)} | ${degrees(sureRmsDeg)} | ${degrees(unsureRmsDeg)} | ${degrees(turnRmsDeg(some))} |`);
  };
  ERROR_CLASSES.forEach((name, c) => row(name, frames.filter(({ errorClass }) => errorClass === c)));
  row('all', frames);
  return rows;
}
