/** What a person wants marks for; kept while the page is open. */
import { createStore } from 'zustand/vanilla';
import type { FoundKind } from '../../../../timing/moments/proposeMarks.ts';

export interface ProposalWishes {
  readonly kinds: readonly FoundKind[];
  /** Names of the puppet's joints whose extremes are left out. */
  readonly without: readonly string[];
  /** Extremes of smaller turns are left out, degrees. */
  readonly leastTurnDeg: number;
}

export const proposalWishes = createStore<ProposalWishes>(() => ({ kinds: ['start', 'end', 'extreme'], without: [], leastTurnDeg: 20 }));
