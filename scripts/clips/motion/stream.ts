// Numbers that look like chance and are the same each time.

/** A repeatable stream of numbers in 0..1 (xorshift); each seed has its own. */
export function stream(seed: number): () => number {
  let s = (Math.imul(seed, 0x9e3779b1) ^ 0x6d2b79f5) | 1;
  return () => {
    s ^= s << 13;
    s ^= s >>> 17;
    s ^= s << 5;
    return (s >>> 0) / 4294967296;
  };
}
