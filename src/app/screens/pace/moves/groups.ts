/** Moves of several limbs that belong together. */
import type { MoveOnSteps } from '../../../../timing/moments/moments.ts';

/** Moves that share steps with one another, in the order of their starts. */
export function groupsOf(moves: readonly MoveOnSteps[]): readonly (readonly MoveOnSteps[])[] {
  const groups: MoveOnSteps[][] = [];
  let end = -Infinity;
  for (const move of [...moves].filter(({ of }) => of !== 'body').sort((a, b) => a.startStep - b.startStep)) {
    if (move.startStep > end || groups.length === 0) groups.push([move]);
    else groups[groups.length - 1]!.push(move);
    end = Math.max(end, move.endStep);
  }
  return groups;
}
