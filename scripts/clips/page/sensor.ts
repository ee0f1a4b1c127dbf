// What a small camera adds: noise, stronger where it is darker in relative terms, a little softer in colour.

/** A repeatable stream of numbers in 0..1 (xorshift), seeded per clip and frame. */
function stream(seed: number): () => number {
  let s = (Math.imul(seed, 0x9e3779b1) ^ 0x6d2b79f5) | 1;
  return () => {
    s ^= s << 13;
    s ^= s >>> 17;
    s ^= s << 5;
    return (s >>> 0) / 4294967296;
  };
}

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
