/** Where playing has come to after some time: read from the clock alone, so that a slow picture drops frames and never drifts. */
export const PLAY_SPEEDS = [1, 0.5, 0.25] as const;
export type PlaySpeed = (typeof PLAY_SPEEDS)[number];

export interface Playing {
  /** Exposures from 0: the first that is played, and the one behind the last. */
  readonly fromExposure: number;
  readonly toExposure: number;
  /** Exposure at which playing began. */
  readonly startExposure: number;
  /** Exposures a second at full speed. */
  readonly rate: number;
  readonly speed: PlaySpeed;
  readonly backwards: boolean;
  readonly looped: boolean;
}

/** Exposures run through since the start, by the clock. */
function runThrough({ rate, speed }: Playing, elapsedS: number): number {
  return Math.max(0, elapsedS) * rate * speed;
}

/** @returns exposure from 0, with its fraction, within the span; `ended` where it is not looped and the span is over */
export function placeAt(playing: Playing, elapsedS: number): { readonly exposure: number; readonly ended: boolean } {
  const { fromExposure, toExposure, startExposure, backwards, looped } = playing;
  const span = toExposure - fromExposure;
  // backwards, an exposure is run through from its end to its start
  const gone = (backwards ? toExposure - startExposure : startExposure - fromExposure) + runThrough(playing, elapsedS);
  const ended = !looped && gone >= span;
  const within = ended ? span : gone % span;
  const exposure = backwards ? toExposure - within : fromExposure + within;
  return { exposure: Math.min(toExposure - 1e-9, Math.max(fromExposure, exposure)), ended };
}

/** The step on display at an exposure. @param first first exposure of each step, counted from 1, rising */
export function stepAtExposure(first: ArrayLike<number>, exposure: number): number {
  let low = 0;
  let high = first.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (first[middle]! - 1 <= exposure + 1e-6) low = middle;
    else high = middle - 1;
  }
  return low;
}
