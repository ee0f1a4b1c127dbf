/**
 * Bytes ↔ base64 (RFC 4648, section 4), written out so that tens of megabytes take a blink in page, worker and Node:
 * the platform's own functions go through one string per byte.
 */

const DIGITS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const PAD = '='.charCodeAt(0);
const CODE_OF = Uint8Array.from(DIGITS, (digit) => digit.charCodeAt(0));
/** Value of a digit by its character code; 255 where it is none. */
const VALUE_OF = new Uint8Array(128).fill(255);
CODE_OF.forEach((code, value) => {
  VALUE_OF[code] = value;
});

/** Bytes as padded base64. */
export function toBase64(bytes: Uint8Array): string {
  const text = new Uint8Array(Math.ceil(bytes.length / 3) * 4);
  for (let from = 0, to = 0; from < bytes.length; from += 3, to += 4) {
    const left = bytes.length - from;
    const three = ((bytes[from] ?? 0) << 16) | ((bytes[from + 1] ?? 0) << 8) | (bytes[from + 2] ?? 0);
    text[to] = CODE_OF[three >> 18] ?? 0;
    text[to + 1] = CODE_OF[(three >> 12) & 63] ?? 0;
    text[to + 2] = left > 1 ? (CODE_OF[(three >> 6) & 63] ?? 0) : PAD;
    text[to + 3] = left > 2 ? (CODE_OF[three & 63] ?? 0) : PAD;
  }
  return new TextDecoder().decode(text);
}

/**
 * The bytes of a padded base64 text.
 *
 * @returns `null` when the text is not exactly what {@link toBase64} writes: a strange character, white space, wrong padding,
 * or bits that belong to no byte. A file we wrote has none of these, so each means damage.
 */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> | null {
  const padding = text.endsWith('==') ? 2 : text.endsWith('=') ? 1 : 0;
  const digits = text.length - padding;
  if (text.length % 4 !== 0) return null;
  const bytes = new Uint8Array((text.length / 4) * 3 - padding);
  let to = 0;
  let four = 0;
  for (let i = 0; i < digits; i += 1) {
    const value = VALUE_OF[text.charCodeAt(i)] ?? 255;
    if (value === 255) return null;
    four = (four << 6) | value;
    if (i % 4 === 3) {
      bytes[to] = four >> 16;
      bytes[to + 1] = four >> 8;
      bytes[to + 2] = four;
      to += 3;
      four = 0;
    }
  }
  if (padding === 1) {
    if ((four & 3) !== 0) return null;
    bytes[to] = four >> 10;
    bytes[to + 1] = four >> 2;
  } else if (padding === 2) {
    if ((four & 15) !== 0) return null;
    bytes[to] = four >> 4;
  }
  return bytes;
}
