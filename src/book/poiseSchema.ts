/** What a book may hold about the balance: what touches, is tied down and is carried; corrections. */
import { MASS_TABLES } from '../balance/poiseSettings.ts';
import { fields, numberFrom, oneOf, textUpTo } from './schemaParts.ts';
import { z } from './zod.ts';

const NAME_CHARS = 100;
const FAR_MM = 100_000;
const moment = numberFrom(0, 1e6, 'seconds');
const trueOrFalse = z.boolean({ error: 'true or false' });
const millimetres = numberFrom(-FAR_MM, FAR_MM, 'mm');
const degrees = numberFrom(-3600, 3600, 'degrees');

function listOf<T extends z.core.SomeType>(of: T, most: number, what: string) {
  const error = `a list of at most ${most} ${what}`;
  return z.array(of, { error }).max(most, { error });
}

function triple<T extends z.core.SomeType>(of: T, what: string) {
  return z.tuple([of, of, of], { error: `three numbers of ${what}: forward, up, right` });
}

function span<T extends { fromS: unknown; toS: unknown }>(one: T): boolean {
  return (one.fromS as number) <= (one.toS as number);
}
const spanAllowed = { error: 'a span whose fromS does not lie after its toS' };

export const poiseSchema = fields({
  table: oneOf(MASS_TABLES),
  pendulumFactor: numberFrom(0.5, 3, 'times the leg'),
  touches: listOf(fields({ bone: textUpTo(NAME_CHARS), fromS: moment, toS: moment, touches: trueOrFalse }).refine(span, spanAllowed), 1000, 'touches'),
  tieDowns: listOf(fields({ foot: textUpTo(NAME_CHARS), fromS: moment, toS: moment }).refine(span, spanAllowed), 1000, 'tie-downs'),
  props: listOf(
    fields({
      name: textUpTo(NAME_CHARS), bone: textUpTo(NAME_CHARS), atMm: triple(millimetres, 'mm'), massG: numberFrom(0, 1e6, 'g'), fromS: moment, toS: moment,
    }).refine(span, spanAllowed),
    100,
    'props',
  ),
  marginMm: numberFrom(-1000, 1000, 'mm'),
  corrections: listOf(
    fields({
      id: textUpTo(NAME_CHARS), fromS: moment, toS: moment, marginMm: numberFrom(-1000, 1000, 'mm'), applied: trueOrFalse,
      turns: listOf(
        fields({ joint: textUpTo(NAME_CHARS), keys: listOf(fields({ timeS: moment, turnDeg: triple(degrees, 'degrees') }), 10_000, 'keys') }), 500, 'turns',
      ),
      shift: listOf(fields({ timeS: moment, shiftMm: triple(millimetres, 'mm') }), 10_000, 'keys'),
    }).refine(span, spanAllowed),
    500,
    'corrections',
  ),
});
