/** A while for which one foot stands: steps `from`..`to` (inclusive). */
export interface Stand {
  readonly foot: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The stands of all feet, by foot and in order. A step without a pose ends one.
 *
 * @param stands `[N·F]`
 */
export function standsOf(stands: Uint8Array, feet: number, count: number, known: (s: number) => boolean): readonly Stand[] {
  const out: Stand[] = [];
  for (let foot = 0; foot < feet; foot++) {
    let from = -1;
    for (let s = 0; s <= count; s++) {
      const on = s < count && known(s) && stands[s * feet + foot] === 1;
      if (on && from < 0) from = s;
      if (!on && from >= 0) {
        out.push({ foot, from, to: s - 1 });
        from = -1;
      }
    }
  }
  return out;
}
