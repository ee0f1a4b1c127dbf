/**
 * Decides what the viewer's decoder does next: read on, or jump.
 */

/** Reading on over so many unwanted frames costs less than finding a key frame again. */
export const READ_ON_FRAMES = 12;
/** A jump begins at most this far before the frame asked for, to bring along wanted frames just before it. */
export const BRING_ALONG_FRAMES = 24;

export type ViewerStep =
  | { readonly kind: 'idle' }
  | { readonly kind: 'read-on' }
  | { readonly kind: 'jump'; readonly first: number };

/**
 * @param wanted frames still to be delivered, most urgent first
 * @param next the frame that the open reader would give next; undefined where none is open
 */
export function nextStep(wanted: readonly number[], next: number | undefined): ViewerStep {
  const urgent = wanted[0];
  if (urgent === undefined) return { kind: 'idle' };
  if (next !== undefined && urgent >= next && urgent - next <= READ_ON_FRAMES) return { kind: 'read-on' };
  // Stepping backwards asks for i, i-1, i-2…: the decoder passes them on its way from the key frame to i anyway.
  const also = new Set(wanted);
  let first = urgent;
  while (also.has(first - 1) && urgent - first < BRING_ALONG_FRAMES) first -= 1;
  return { kind: 'jump', first };
}
