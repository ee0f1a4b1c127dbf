/**
 * The memory behind a result, to be handed over between a worker and the page instead of copied.
 *
 * @param value plain data: typed arrays, arrays and objects of them, to any depth
 * @returns each buffer once; shared memory is left out, it can't be handed over
 */
export function memoryOf(value: unknown): ArrayBuffer[] {
  const found = new Set<ArrayBuffer>();
  const look = (part: unknown): void => {
    if (ArrayBuffer.isView(part)) {
      if (part.buffer instanceof ArrayBuffer) found.add(part.buffer);
    } else if (typeof part === 'object' && part !== null) {
      for (const inner of Object.values(part)) look(inner);
    }
  };
  look(value);
  return [...found];
}
