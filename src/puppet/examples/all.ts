/** The armatures that come with the program, by what they are. */
import type { Armature } from '../armature.ts';
import { SEDGE } from './bird.ts';
import { PIP } from './child.ts';
import { BRAMBLE } from './fourLegged.ts';
import { MARLA } from './human.ts';
import { GRUMM } from './troll.ts';

export interface Example {
  readonly id: 'human' | 'child' | 'troll' | 'bird' | 'four-legged';
  /** What it is, for a list to choose from. */
  readonly what: string;
  readonly armature: Armature;
}

export const EXAMPLES: readonly Example[] = [
  { id: 'human', what: 'human figure', armature: MARLA },
  { id: 'child', what: 'stocky child with a jaw on a screw', armature: PIP },
  { id: 'troll', what: 'long-armed troll with a back of four links', armature: GRUMM },
  { id: 'bird', what: 'wading bird on two legs', armature: SEDGE },
  { id: 'four-legged', what: 'four-legged beast', armature: BRAMBLE },
];
