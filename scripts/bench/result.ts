/**
 * What every benchmark gives back: a title, what was done, and a table.
 */
export interface BenchResult {
  readonly title: string;
  /** One or two sentences on how it was measured. */
  readonly how: string;
  /** Heads of the columns as for `markdownTable`. */
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** A span of time in the unit in which it is easiest to read. */
export function timeText(ms: number): string {
  if (ms >= 1000) return `${(ms / 1000).toFixed(2)} s`;
  return ms >= 10 ? `${ms.toFixed(0)} ms` : `${ms.toFixed(1)} ms`;
}

/** A number of bytes in kB or MB of 1000, with three figures. */
export function bytesText(bytes: number): string {
  return bytes >= 1e6 ? `${(bytes / 1e6).toPrecision(3)} MB` : `${(bytes / 1e3).toPrecision(3)} kB`;
}
