// Motion blur as a shutter makes it: light adds up, not the picture's values.

/** Display value 0..255 to light 0..1; a power of 2.2 is near enough to sRGB for a blur. */
const LIGHT = Float32Array.from({ length: 256 }, (_, v) => (v / 255) ** 2.2);

/** Sums pictures of one size in light and writes their mean. */
export class LightSum {
  readonly #sum: Float32Array;
  #count = 0;

  /** @param bytes length of the RGBA data of one picture */
  constructor(bytes: number) {
    this.#sum = new Float32Array(bytes);
  }

  add(pixels: Uint8ClampedArray): void {
    for (let i = 0; i < pixels.length; i += 1) this.#sum[i] = (this.#sum[i] ?? 0) + (LIGHT[pixels[i] ?? 0] ?? 0);
    this.#count += 1;
  }

  /** Overwrites `pixels` with the mean of all that was added. */
  write(pixels: Uint8ClampedArray): void {
    for (let i = 0; i < pixels.length; i += 1) pixels[i] = 255 * ((this.#sum[i] ?? 0) / this.#count) ** (1 / 2.2);
  }
}
