/** A length of time as people say it: "8 s", "2 min 05 s"; "–" where it is not known. */
export function timeWords(seconds: number): string {
  if (!Number.isFinite(seconds)) return '–';
  const whole = Math.max(0, Math.round(seconds));
  if (whole < 60) return `${whole} s`;
  return `${Math.floor(whole / 60)} min ${String(whole % 60).padStart(2, '0')} s`;
}

/** A size of a file as people say it, in decimal units. */
export function sizeWords(bytes: number): string {
  if (bytes < 1e6) return `${Math.max(1, Math.round(bytes / 1e3))} kB`;
  if (bytes < 1e9) return `${(bytes / 1e6).toFixed(1)} MB`;
  return `${(bytes / 1e9).toFixed(2)} GB`;
}
