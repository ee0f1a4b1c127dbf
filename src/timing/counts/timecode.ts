/**
 * Time code labels of exposures, as SMPTE ST 12-1 counts them.
 *
 * Drop-frame: at 30000/1001 exposures a second the labels ;00 and ;01 (at 60000/1001 ;00 to ;03) are left out at the start of
 * every minute but each tenth, so that the labels keep up with the clock. No picture is dropped. 24 and 25 have no such form.
 */

export interface TimecodeKind {
  /** Labels in a second: 24, 25, 30, 48, 50, 60. */
  readonly base: number;
  readonly drop: boolean;
}

/** How a rate is labelled; `null` where no time code is defined for it. Rates a little under a whole one count as n·1000/1001. */
export function timecodeKind(rate: number): TimecodeKind | null {
  for (const base of [24, 25, 30, 48, 50, 60]) {
    if (Math.abs(rate - base) < 1e-6) return { base, drop: false };
    // 23.976 and 47.952 are labelled like 24 and 48, without dropping
    if (Math.abs(rate - (base * 1000) / 1001) < 0.003) return { base, drop: base === 30 || base === 60 };
  }
  return null;
}

/**
 * Label of an exposure: `hh:mm:ss:ff`, with `;` before the frames where labels are dropped. After a day it begins again.
 *
 * @param index of the exposure, from 0
 */
export function timecodeOf(index: number, { base, drop }: TimecodeKind): string {
  const skipped = base === 60 ? 4 : 2;
  const minute = base * 60 - (drop ? skipped : 0);
  const ten = base * 600 - (drop ? 9 * skipped : 0);
  const day = ten * 144;
  let at = ((index % day) + day) % day;
  if (drop) {
    const tens = Math.floor(at / ten);
    const rest = at % ten;
    // the first minute of ten is whole, the others lack some labels at their start
    at += tens * 9 * skipped + (rest < base * 60 ? 0 : skipped * (1 + Math.floor((rest - base * 60) / minute)));
  }
  const two = (n: number): string => String(n).padStart(2, '0');
  const seconds = Math.floor(at / base);
  return `${two(Math.floor(seconds / 3600))}:${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}${drop ? ';' : ':'}${two(at % base)}`;
}

/** The exposure (from 0) that a label names; `null` for what is no label, or one that is left out. */
export function exposureOfTimecode(label: string, kind: TimecodeKind): number | null {
  const parts = /^(\d{1,2}):(\d{2}):(\d{2})[:;](\d{2})$/.exec(label.trim());
  if (parts === null) return null;
  const [h, m, s, f] = parts.slice(1).map(Number) as [number, number, number, number];
  if (h > 23 || m > 59 || s > 59 || f >= kind.base) return null;
  const skipped = kind.base === 60 ? 4 : 2;
  if (kind.drop && s === 0 && m % 10 !== 0 && f < skipped) return null;
  const minutes = 60 * h + m;
  return ((h * 60 + m) * 60 + s) * kind.base + f - (kind.drop ? skipped * (minutes - Math.floor(minutes / 10)) : 0);
}
