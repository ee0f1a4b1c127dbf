/**
 * Tells whether a chosen file is the take a book speaks of: footage is never in the book, it is linked again.
 *
 * The hash decides; the facts are there to tell the person in which way another file differs.
 */
import { NudgebookError } from '../errors.ts';
import type { ClipFacts } from '../footage/facts.ts';
import type { TakeRef } from './document.ts';

export type TakeMatch =
  | { readonly kind: 'same' }
  /** `error` has the code `wrong-footage`, the sentence and the tip. */
  | { readonly kind: 'different'; readonly error: NudgebookError };

/** What of a clip is compared. */
export type ComparableFacts = Pick<ClipFacts, 'name' | 'sizeBytes' | 'widthPx' | 'heightPx' | 'durationS' | 'timesS'>;

/**
 * @param take the take in the book
 * @param hash content hash of the chosen file
 * @param facts what was read of the chosen file
 * @returns `same`, or `different` with the sentence that says how it differs. A file of the same content under another name is the same.
 */
export function matchesTake(take: TakeRef, hash: string, facts: ComparableFacts): TakeMatch {
  if (hash.toLowerCase() === take.hash && facts.sizeBytes === take.sizeBytes) return { kind: 'same' };
  const differences: string[] = [];
  if (facts.sizeBytes !== take.sizeBytes) differences.push(`${facts.sizeBytes} bytes instead of ${take.sizeBytes}`);
  if (facts.widthPx !== take.widthPx || facts.heightPx !== take.heightPx) {
    differences.push(`${facts.widthPx} × ${facts.heightPx} pixels instead of ${take.widthPx} × ${take.heightPx}`);
  }
  if (facts.timesS.length !== take.frames) differences.push(`${facts.timesS.length} frames instead of ${take.frames}`);
  // Durations are compared as they are printed: the container's own rounding is below a millisecond.
  if (facts.durationS.toFixed(3) !== take.durationS.toFixed(3)) {
    differences.push(`${facts.durationS.toFixed(3)} s instead of ${take.durationS.toFixed(3)} s`);
  }
  const how = differences.length === 0 ? 'its content is not the same' : differences.join(', ');
  return {
    kind: 'different',
    error: new NudgebookError(
      'wrong-footage',
      `“${facts.name}” is not the take of this book, “${take.name}”: ${how}.`,
      'Choose the file the book was made with, as the camera or the editor wrote it, or use this one as a new take.',
    ),
  };
}
