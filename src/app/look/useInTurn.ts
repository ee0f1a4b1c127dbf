import { useEffect, useRef, useState } from 'react';
import { layInTurn } from './inTurn.ts';

/**
 * A value that may be shown a little later than it comes: the former one until the turn of the new (`inTurn.ts`).
 *
 * @param fits whether the former value can still be shown in this place; where it can't, the new one is taken at once
 */
export function useInTurn<T>(value: T, fits: (former: T) => boolean): T {
  const [shown, setShown] = useState({ value });
  const owner = useRef({});
  useEffect(() => (shown.value === value ? undefined : layInTurn(owner.current, () => setShown({ value }))), [shown, value]);
  return shown.value === value || !fits(shown.value) ? value : shown.value;
}
