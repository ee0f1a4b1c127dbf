/** Corrections name the container's times; the fit runs on the performer's own clock. */
import type { Corrections } from './corrections.ts';

/** The same corrections with every time divided by the capture factor. */
export function atPerformersPace(corrections: Corrections, captureFactor: number): Corrections {
  if (captureFactor === 1) return corrections;
  const at = <Entry extends { readonly timeS: number }>(entry: Entry): Entry => ({ ...entry, timeS: entry.timeS / captureFactor });
  const over = <Entry extends { readonly fromS: number; readonly toS: number }>(entry: Entry): Entry =>
    ({ ...entry, fromS: entry.fromS / captureFactor, toS: entry.toS / captureFactor });
  const scaled = (timeS: number | null): number | null => (timeS === null ? null : timeS / captureFactor);
  const { slate } = corrections;
  return {
    camera: corrections.camera,
    placed: corrections.placed.map(at),
    angles: corrections.angles.map(at),
    depthFlips: corrections.depthFlips.map(over),
    swaps: corrections.swaps.map(over),
    contacts: corrections.contacts.map(over),
    slate: slate.kind !== 'given' ? slate : {
      kind: 'given', straightFromS: slate.straightFromS / captureFactor, straightToS: slate.straightToS / captureFactor,
      squareFromS: scaled(slate.squareFromS), squareToS: scaled(slate.squareToS),
    },
  };
}
