/** What can run along the rows of the Pace screen besides the joints. */
import type { FunctionComponent } from 'react';
import type { Plan } from '../../../plan/plan.ts';
import type { PaceViewName } from '../../state/paceView.ts';
import { LimbsBody, LimbsHead } from './limbs/LimbsView.tsx';
import { MovesBody, MovesHead } from './moves/MovesView.tsx';

export interface ViewEntry {
  readonly name: PaceViewName;
  readonly words: string;
  readonly Head: FunctionComponent<{ readonly plan: Plan }>;
  readonly Body: FunctionComponent<{ readonly plan: Plan }>;
}

export const VIEWS: readonly ViewEntry[] = [
  { name: 'limbs', words: 'Limbs', Head: LimbsHead, Body: LimbsBody },
  { name: 'moves', words: 'Moves', Head: MovesHead, Body: MovesBody },
];
