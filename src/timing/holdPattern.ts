/**
 * On ones, twos or mixed: which exposures begin a new step.
 */
import { NudgebookError } from '../errors.ts';
import type { HoldSpan } from './timingSettings.ts';

/** `exposure[N]` first exposure of each step, counted from 1; `holds[N]` for how many it is held. */
export interface HoldPattern {
  readonly exposure: readonly number[];
  readonly holds: readonly number[];
}

/**
 * Steps from exposure 1 until none may begin any more. A span begins with a new step; the one before it is cut short where it
 * would run into it.
 *
 * @param on exposures for which a pose is held before the first span
 * @param lastStart no step begins after this exposure, counted from 0
 * @param most more steps than this are refused
 * @throws NudgebookError `bad-settings`
 */
export function layOutHolds(on: number, spans: readonly HoldSpan[], lastStart: number, most: number): HoldPattern {
  const exposure: number[] = [];
  const holds: number[] = [];
  let at = 0;
  let next = 0;
  let now = on;
  while (at <= lastStart) {
    while (next < spans.length && spans[next]!.fromExposure - 1 <= at) now = spans[next++]!.on;
    const until = spans[next] === undefined ? Infinity : spans[next]!.fromExposure - 1;
    const held = Math.min(now, until - at);
    exposure.push(at + 1);
    holds.push(held);
    at += held;
    if (exposure.length > most) {
      throw new NudgebookError(
        'bad-settings', `These settings would make ${exposure.length + (at > lastStart ? 0 : Math.floor((lastStart - at) / now) + 1)} steps; the most is ${most}.`,
        'Choose a shorter part of the take, a lower rate, more exposures per pose, or a smaller time scale.',
      );
    }
  }
  return { exposure, holds };
}

/** Exposures for which a step that begins at an exposure (counted from 1) would be held. */
export function onAt(on: number, spans: readonly HoldSpan[], exposure: number): number {
  let now = on;
  for (const span of spans) if (span.fromExposure <= exposure) now = span.on;
  return now;
}
