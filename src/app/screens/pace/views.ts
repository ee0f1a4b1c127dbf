/** What can run along the rows of the Pace screen besides the joints. */
import type { FunctionComponent } from 'react';
import type { Plan } from '../../../plan/plan.ts';
import type { PaceViewName } from '../../state/paceView.ts';

export interface ViewEntry {
  readonly name: PaceViewName;
  readonly words: string;
  readonly Head: FunctionComponent<{ readonly plan: Plan }>;
  readonly Body: FunctionComponent<{ readonly plan: Plan }>;
}

export const VIEWS: readonly ViewEntry[] = [];
