/** Spans in which one foot alone carries the puppet. */
import type { OneLegSpan } from './balance.ts';
import type { Contacts, Toucher } from './touching.ts';

/**
 * A step of which a foot was hidden belongs to none: the other may have been there.
 *
 * @param standMm `[N]` margins, NaN where not known
 * @returns in order; the worst step is where the margin is least (the first step where none is known, with NaN)
 */
export function oneLegSpans(touchers: readonly Toucher[], { touching, unseen }: Contacts, standMm: Float64Array): readonly OneLegSpan[] {
  const width = touchers.length;
  const out: OneLegSpan[] = [];
  let open: { foot: number; from: number } | null = null;
  const close = (to: number): void => {
    if (open === null) return;
    const { foot, from } = open;
    let worst = from;
    for (let s = from; s <= to; s++) if (standMm[s]! < standMm[worst]! || Number.isNaN(standMm[worst]!)) worst = s;
    out.push({ foot: touchers[foot]!.name, fromStep: from, toStep: to, worstStep: worst, worstMm: standMm[worst]! });
    open = null;
  };
  for (let s = 0; s < standMm.length; s++) {
    let only = -1;
    let some = 0;
    for (let k = 0; k < width; k++) {
      if (touching[s * width + k] !== 1 && unseen[s * width + k] !== 1) continue;
      some += unseen[s * width + k] === 1 ? 2 : 1;
      only = k;
    }
    const foot = some === 1 && touchers[only]!.isFoot ? only : -1;
    if (open !== null && open.foot !== foot) close(s - 1);
    if (foot >= 0 && open === null) open = { foot, from: s };
  }
  close(standMm.length - 1);
  return out;
}
