/** Jumps of the clips: how long they are in the air by the truth's frames, by its poses on the puppet, and as measured. */
import type { Flight } from '../../src/balance/balance.ts';
import { figure, NONE } from '../accuracy/words.ts';
import { markdownTable } from '../bench/document/markdownTable.ts';
import type { NamedBalance } from './tables.ts';

export function flightTable(clips: readonly NamedBalance[]): string {
  const rows = clips.flatMap(({ name, exact, measured }) => {
    const cells = (flight: Flight | undefined): string[] => (flight === undefined ? [NONE, NONE, NONE, NONE] : [
      `${figure(flight.aloftS, 2)} ± ${figure(flight.aloftErrorS, 2)}`, figure(flight.ballisticS, 2), flight.reads, figure(flight.offMm),
    ]);
    return Array.from({ length: Math.max(exact.flights.length, measured.flights.length) }, (_, k) => [name, ...cells(exact.flights[k]), ...cells(measured.flights[k])]);
  });
  return markdownTable(
    ['clip', 'true pose: aloft, s|r', 'ballistic, s|r', 'reads', 'off the parabola, mm|r', 'measured: aloft, s|r', 'ballistic, s|r', 'reads', 'off, mm|r'], rows,
  );
}
