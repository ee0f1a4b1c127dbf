/** Cells of comma-separated files (RFC 4180). */
import { rounded } from './rounding.ts';

/**
 * One text cell: quoted where RFC 4180 asks for it, and never taken for a formula. Spreadsheets run a cell that begins
 * with = + - @ (or a tab or return before them); such a text gets an apostrophe in front, which they hide.
 */
export function csvText(text: string): string {
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/** One number cell; empty where the number is not known. */
export function csvNumber(value: number, places: number): string {
  const number = rounded(value, places);
  return number === null ? '' : String(number);
}
