/**
 * The machine a benchmark ran on, as its system tells it. No paths and no names of people or hosts.
 */
import { arch, cpus, loadavg, platform, totalmem } from 'node:os';
import process from 'node:process';

/** Load of the last minute above which other work must have disturbed the figures, as a share of the cores. */
const QUIET_SHARE = 0.5;

/** Programs that wanted a core in the last minute. Ask before anything of our own runs, so that it is the load of others; 0 where the system does not tell. */
export function loadOfOthers(): number {
  return loadavg()[0] ?? 0;
}

/** @param load as told by {@link loadOfOthers} */
export function machineFacts(browserVersion: string, load: number): string {
  const all = cpus();
  const busy = load > QUIET_SHARE * all.length
    ? ` Other programs kept it busy when the run began (load ${load.toFixed(1)} on ${all.length} cores): the times are longer than on a quiet machine.`
    : '';
  return `${all.length} cores (${(all[0]?.model ?? 'unknown').trim()}), ${(totalmem() / 2 ** 30).toFixed(0)} GiB, ${platform()} ${arch()}, ` +
    `Node ${process.versions.node}, Chromium ${browserVersion} without a window, graphics in software.${busy}`;
}
