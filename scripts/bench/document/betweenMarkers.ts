/**
 * Puts a printed result into a document between two marker comments, so that no number there is ever typed by hand.
 */

/** The pair of comments that hold the part called `name`. */
export function markers(name: string): readonly [start: string, end: string] {
  return [`<!-- ${name}: written by a script, not by hand -->`, `<!-- end of ${name} -->`];
}

/**
 * @param document the whole text, with both markers of `name` in it exactly once and in order
 * @param name which part
 * @param result what shall stand between the markers from now on
 * @returns the document with the part replaced and everything else untouched
 * @throws Error where a marker is missing, doubled or out of order, because writing anywhere else would destroy text
 */
export function replaceBetweenMarkers(document: string, name: string, result: string): string {
  const [start, end] = markers(name);
  const from = document.indexOf(start);
  const to = document.indexOf(end);
  const once = document.lastIndexOf(start) === from && document.lastIndexOf(end) === to;
  if (from < 0 || to < from || !once) throw new Error(`The document needs the lines "${start}" and "${end}" once each, in this order.`);
  return `${document.slice(0, from + start.length)}\n\n${result.trim()}\n\n${document.slice(to)}`;
}
