// What a small camera adds: noise, stronger where it is darker in relative terms, a little softer in colour.
import { stream } from '../motion/stream.ts';

/** Adds noise to RGBA bytes in place; level 1 is about 2.5 grey levels. */
export function addSensorNoise(pixels: Uint8ClampedArray, seed: number, level: number): void {
  const next = stream(seed);
  for (let i = 0; i < 20; i++) next();
  for (let p = 0; p < pixels.length; p += 4) {
    // The sum of three is near enough to a bell curve.
    const light = (next() + next() + next() - 1.5) * 5 * level;
    const hue = (next() - 0.5) * 3 * level;
    const grain = light * (0.6 + (0.8 * (255 - (pixels[p + 1] ?? 0))) / 255);
    pixels[p] = (pixels[p] ?? 0) + grain + hue;
    pixels[p + 1] = (pixels[p + 1] ?? 0) + grain;
    pixels[p + 2] = (pixels[p + 2] ?? 0) + grain - hue;
  }
}
