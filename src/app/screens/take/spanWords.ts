import { figure } from '../../../charts/figures.ts';

/** A span as people say it: "0.43 to 1.20 s"; a single frame as "at 0.43 s". */
export function spanWords({ fromS, toS }: { readonly fromS: number; readonly toS: number }): string {
  return toS - fromS < 0.002 ? `at ${figure(fromS, 2)} s` : `${figure(fromS, 2)} to ${figure(toS, 2)} s`;
}
