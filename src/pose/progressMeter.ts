/**
 * How fast a run goes now and how long it will take, from the moments at which its frames were done. Pure: the clock is passed in.
 */

/** The speed shown is that of this last stretch, so that it follows the machine's load without jumping. */
const WINDOW_S = 4;

export class ProgressMeter {
  readonly #total: number;
  #done = 0;
  #recentS: number[] = [];

  /** @param total frames to do */
  constructor(total: number) {
    this.#total = total;
  }

  /** One more frame is done. */
  add(nowS: number): void {
    this.#done += 1;
    this.#recentS.push(nowS);
    this.#forget(nowS);
  }

  /**
   * @returns frames a second over the last few seconds (0 until two frames are done) and seconds left (NaN until then)
   */
  at(nowS: number): { readonly doneFrames: number; readonly totalFrames: number; readonly framesPerS: number; readonly remainingS: number } {
    this.#forget(nowS);
    const first = this.#recentS[0] ?? nowS;
    const spanS = nowS - first;
    const framesPerS = this.#recentS.length > 1 && spanS > 0 ? (this.#recentS.length - 1) / spanS : 0;
    const left = this.#total - this.#done;
    return {
      doneFrames: this.#done,
      totalFrames: this.#total,
      framesPerS,
      remainingS: left === 0 ? 0 : framesPerS > 0 ? left / framesPerS : Number.NaN,
    };
  }

  #forget(nowS: number): void {
    // Two are always kept: a run slower than the window still has a speed.
    let old = 0;
    while (old < this.#recentS.length - 2 && nowS - (this.#recentS[old] ?? 0) > WINDOW_S) old += 1;
    if (old > 0) this.#recentS = this.#recentS.slice(old);
  }
}
