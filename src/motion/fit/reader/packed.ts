/** Networks as text: every array as 16-bit whole numbers with one scale, little-endian, base64. */
import type { Network } from './network.ts';

const ARRAYS = ['inMean', 'inScale', 'outMean', 'outScale', 'direct', 'first', 'firstBias', 'second', 'secondBias', 'third', 'thirdBias'] as const;

/** A network as it is kept: for each of its arrays, in a fixed order, the step between two whole numbers, and all of them in a row. */
export interface Packed {
  readonly sizes: readonly [input: number, first: number, second: number, output: number];
  readonly steps: readonly number[];
  readonly numbers: string;
}

const MOST = 32767;
const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Rounded to 1/32767 of each array's largest number. */
export function pack(net: Network): Packed {
  const { input, first, second, output } = net.sizes;
  const steps = ARRAYS.map((name) => Math.max(...net[name].map(Math.abs)) / MOST || 1);
  const bytes: number[] = [];
  ARRAYS.forEach((name, k) => {
    for (const value of net[name]) {
      const whole = Math.round(value / steps[k]!) & 0xffff;
      bytes.push(whole & 255, whole >> 8);
    }
  });
  while (bytes.length % 3 !== 0) bytes.push(0);
  let numbers = '';
  for (let i = 0; i < bytes.length; i += 3) {
    const three = (bytes[i]! << 16) | (bytes[i + 1]! << 8) | bytes[i + 2]!;
    for (const shift of [18, 12, 6, 0]) numbers += ALPHABET[(three >> shift) & 63]!;
  }
  return { sizes: [input, first, second, output], steps, numbers };
}

/** @throws Error where the text is not as long as the sizes say */
export function unpack({ sizes: [input, first, second, output], steps, numbers }: Packed): Network {
  const lengths: Readonly<Record<(typeof ARRAYS)[number], number>> = {
    inMean: input, inScale: input, outMean: output, outScale: output, direct: input * output,
    first: input * first, firstBias: first, second: first * second, secondBias: second, third: second * 2 * output, thirdBias: 2 * output,
  };
  const total = 2 * ARRAYS.reduce((sum, name) => sum + lengths[name], 0);
  if (numbers.length !== 4 * Math.ceil(total / 3)) throw new Error(`a network of ${numbers.length} letters where ${4 * Math.ceil(total / 3)} were due`);
  const value = new Map([...ALPHABET].map((letter, i) => [letter, i]));
  const bytes = new Uint8Array(numbers.length * 0.75);
  for (let i = 0, o = 0; i < numbers.length; i += 4) {
    let three = 0;
    for (let k = 0; k < 4; k++) three = (three << 6) | value.get(numbers[i + k]!)!;
    bytes[o++] = three >> 16;
    bytes[o++] = (three >> 8) & 255;
    bytes[o++] = three & 255;
  }
  let at = 0;
  const read = Object.fromEntries(ARRAYS.map((name, k) => [name, Float64Array.from({ length: lengths[name] }, () => {
    const whole = (bytes[at]! | (bytes[at + 1]! << 8)) << 16 >> 16;
    at += 2;
    return whole * steps[k]!;
  })])) as Record<(typeof ARRAYS)[number], Float64Array>;
  return { sizes: { input, first, second, output }, ...read };
}
