/** How figures are printed: a dash where there is none, a sign where it matters, no minus before a nought. */

export const NONE = '–';

export const figure = (value: number | null | undefined, digits = 1): string =>
  value === null || value === undefined || !Number.isFinite(value) ? NONE : value.toFixed(digits).replace(/^-(0(\.0*)?)$/, '$1');

export const signed = (value: number | null | undefined, digits = 1): string => {
  const text = figure(value, digits);
  return text !== NONE && Number(text) > 0 ? `+${text}` : text;
};

export const percent = (share: number | null | undefined, digits = 0): string =>
  figure(share) === NONE ? NONE : `${figure(100 * share!, digits)} %`;
