/**
 * How numbers are written on every view: with a true minus sign, fixed decimals, and never `NaN` or `-0.0`.
 */

/** A number with fixed decimals and a true minus; an en dash where there is no number. */
export function figure(value: number | undefined, decimals: number): string {
  if (value === undefined || !Number.isFinite(value)) return '–';
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? `\u2212${text}` : text;
}

/** The same with a plus before what is above zero: direction is read from the sign, not from a colour. */
export function signedFigure(value: number | undefined, decimals: number): string {
  if (value === undefined || !Number.isFinite(value)) return '–';
  const text = figure(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** Exposures of a step as "23–24", or "23" on ones. */
export function exposureSpan(first: number, on: number): string {
  return on > 1 ? `${first}–${first + on - 1}` : String(first);
}

/** A name such as `leftElbow` as people say it: "left elbow". */
export function jointWords(name: string): string {
  return name.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
}

/** Steps (from 0) as people count them: "13–19", "12" where it is one. */
export function stepsWords(from: number, to: number): string {
  return to > from ? `${from + 1}–${to + 1}` : String(from + 1);
}
