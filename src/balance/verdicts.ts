/** From margins to verdicts. */
import { VERDICTS, type Verdict } from './balance.ts';

export const VERDICT: Readonly<Record<Verdict, number>> = Object.fromEntries(VERDICTS.map((name, index) => [name, index])) as Record<Verdict, number>;

/**
 * In sigmas of the margin: beyond the first it holds, beyond the second outside it falls, marginal between. That it falls is said only when it
 * is nearly sure. Our choice; docs/balance.md says how often each is wrong on the clips with truth.
 */
export const SURE = { holds: 1, falls: 2 } as const;

/** Would it stand? A foot that is tied down holds what else would not be sure. */
export function standVerdict(marginMm: number, sigmaMm: number, tied: boolean): number {
  if (Number.isNaN(marginMm)) return VERDICT['not known'];
  if (marginMm > SURE.holds * sigmaMm) return VERDICT.holds;
  if (tied) return VERDICT.tied;
  return marginMm >= -SURE.falls * sigmaMm ? VERDICT.marginal : VERDICT.falls;
}

/** How far ahead a foot may land and still catch it, as a part of 1/ω₀: by then a fall has grown e times. Our choice. */
export const CATCH_WITHIN = 1;

export interface InMotion {
  /** `[N]` mm, and their error. */
  readonly marginMm: Float64Array;
  readonly sigmaMm: Float64Array;
  readonly filmTimeS: Float64Array;
  /** `[N·T]` */
  readonly touching: Uint8Array;
  readonly touchers: number;
  /** `[N]` 1 where something may touch of which that is not known. */
  readonly doubt: Uint8Array;
  /** ω₀, 1/s */
  readonly rate: number;
}

/**
 * Does it look right in motion? As for standing; but where the extrapolated centre of mass lies outside and something lands
 * within 1/ω₀ after which it lies inside, the fall is a stride: `caught`.
 *
 * @param stand `[N]` verdicts of standing: where those know nothing or are in the air, these are too. @returns `[N]`
 */
export function moveVerdicts(stand: Uint8Array, { marginMm, sigmaMm, filmTimeS, touching, touchers, doubt, rate }: InMotion): Uint8Array {
  const count = stand.length;
  return stand.map((verdict, s) => {
    if (verdict === VERDICT['not known'] || verdict === VERDICT['in the air']) return verdict;
    const now = standVerdict(marginMm[s]!, sigmaMm[s]!, false);
    if (now === VERDICT.holds || now === VERDICT['not known']) return now;
    const until = filmTimeS[s]! + CATCH_WITHIN / rate;
    for (let t = s + 1; t < count && filmTimeS[t]! <= until; t++) {
      if (marginMm[t]! >= -SURE.falls * sigmaMm[t]! && lands(touching, touchers, t)) return VERDICT.caught;
    }
    if (doubt[s] === 1) return VERDICT['not known'];
    return verdict === VERDICT.tied ? VERDICT.tied : now;
  });
}

/** Whether something touches at a step that did not at the one before. */
function lands(touching: Uint8Array, touchers: number, step: number): boolean {
  for (let k = 0; k < touchers; k++) if (touching[step * touchers + k] === 1 && touching[(step - 1) * touchers + k] === 0) return true;
  return false;
}
