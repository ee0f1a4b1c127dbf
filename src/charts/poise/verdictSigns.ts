/** Verdicts as signs and words: told by shape, never by colour alone. All within a square of side 2 about the origin. */
import { VERDICTS, type Verdict } from '../../balance/balance.ts';

/**
 * Standing on its base: a block. Marginal: a block on its corner. Tied: a block with a peg through it. Falling: a block that leans
 * out over its base. In the air: a block above a line. Not known: a short dash. Caught: a leaning block with a foot under it.
 */
const SIGNS: Readonly<Record<Verdict, string>> = {
  holds: 'M-0.7,-0.5h1.4v1.4h-1.4z',
  marginal: 'M0,-0.9l0.9,0.9l-0.9,0.9l-0.9,-0.9z',
  tied: 'M-0.7,-0.4h1.4v1.3h-1.4zM0,-1v2',
  falls: 'M-0.9,0.9l0.35,-1.6l1.35,0.3l-0.35,1.3zM-0.9,0.9h1.9',
  'in the air': 'M-0.6,-0.9h1.2v1h-1.2zM-0.9,0.8h1.8',
  'not known': 'M-0.5,0h1',
  caught: 'M-0.9,0.2l0.3,-1.1l1.1,0.2l-0.25,0.9zM-0.2,0.9h1.1v-0.35h-1.1z',
};

export function verdictOf(index: number): Verdict {
  return VERDICTS[index] ?? 'not known';
}

/** Path of a sign about a place, `half` px to each side. */
export function verdictPath(verdict: Verdict, x: number, y: number, half: number): string {
  let k = 0;
  // every command letter that takes absolute places has them first; relative ones scale alone
  return SIGNS[verdict].replace(/([Mlhvz])([^Mlhvz]*)/g, (_, letter: string, numbers: string) => {
    k = 0;
    const scaled = numbers.trim() === '' ? '' : numbers.split(/[ ,]|(?<=\d)(?=-)/).map((n) => {
      const value = Number(n) * half + (letter === 'M' ? (k % 2 === 0 ? x : y) : 0);
      k += 1;
      return value.toFixed(2);
    }).join(',');
    return `${letter}${scaled}`;
  });
}

/** What falls and needs a tie-down is full, the others are outlines. */
export function isFull(verdict: Verdict): boolean {
  return verdict === 'falls' || verdict === 'tied';
}
