/** All corrections of a take as one list in order of time, each with its words and the way to take it back. */
import { describeCorrections } from '../../book/describeCorrections.ts';
import { type Corrections, NO_CORRECTIONS } from '../../motion/corrections/corrections.ts';

export interface ListedCorrection {
  /** Unique among the list. */
  readonly key: string;
  /** First moment and last, container seconds; `null` for what holds for the whole take. */
  readonly fromS: number | null;
  readonly toS: number | null;
  readonly words: string;
  readonly remove: (corrections: Corrections) => Corrections;
}

const wordsOf = (only: Partial<Corrections>): string => describeCorrections(NO_CORRECTIONS, { ...NO_CORRECTIONS, ...only }).join(', ');

export function listCorrections(c: Corrections): readonly ListedCorrection[] {
  const list: ListedCorrection[] = [];
  const moments = ['placed', 'angles'] as const;
  for (const kind of moments) {
    for (const entry of c[kind]) {
      const key = `${kind} ${JSON.stringify(entry)}`;
      list.push({ key, fromS: entry.timeS, toS: entry.timeS, words: wordsOf({ [kind]: [entry] }), remove: (now) => without(now, kind, entry) });
    }
  }
  for (const kind of ['depthFlips', 'swaps', 'contacts'] as const) {
    for (const entry of c[kind]) {
      const key = `${kind} ${JSON.stringify(entry)}`;
      list.push({ key, fromS: entry.fromS, toS: entry.toS, words: wordsOf({ [kind]: [entry] }), remove: (now) => without(now, kind, entry) });
    }
  }
  for (const key of ['pitchDeg', 'rollDeg', 'verticalFovDeg'] as const) {
    if (c.camera[key] === null) continue;
    const only = { camera: { ...NO_CORRECTIONS.camera, [key]: c.camera[key] } };
    list.push({ key, fromS: null, toS: null, words: wordsOf(only), remove: (now) => ({ ...now, camera: { ...now.camera, [key]: null } }) });
  }
  if (c.slate.kind !== 'find') {
    list.push({ key: 'slate', fromS: null, toS: null, words: wordsOf({ slate: c.slate }), remove: (now) => ({ ...now, slate: NO_CORRECTIONS.slate }) });
  }
  return list.sort((a, b) => (a.fromS ?? -1) - (b.fromS ?? -1));
}

function without(c: Corrections, kind: 'placed' | 'angles' | 'depthFlips' | 'swaps' | 'contacts', entry: unknown): Corrections {
  return { ...c, [kind]: (c[kind] as readonly unknown[]).filter((other) => other !== entry) };
}
