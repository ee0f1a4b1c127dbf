/**
 * Tells a JSON text that was cut short from one that is wrong in the middle, for a sentence that helps.
 */

/**
 * Whether the text starts as a JSON object and ends before that object does: an unfinished string or brackets still open.
 * Linear in the text; called only after JSON.parse has refused it.
 */
export function endsTooEarly(text: string): boolean {
  if (!text.trimStart().startsWith('{')) return false;
  let open = 0;
  let inString = false;
  for (let i = 0; i < text.length; i += 1) {
    const c = text[i];
    if (inString) {
      if (c === '\\') i += 1;
      else if (c === '"') inString = false;
    } else if (c === '"') inString = true;
    else if (c === '{' || c === '[') open += 1;
    else if (c === '}' || c === ']') open -= 1;
  }
  return inString || open > 0;
}
