/** What can stand at the side of the Pace screen. */
import type { FunctionComponent } from 'react';
import type { Plan } from '../../../plan/plan.ts';
import type { PacePanel } from '../../state/paceView.ts';
import { LeadsPanel } from './limbs/LeadsPanel.tsx';
import { HoldsPanel } from './holds/HoldsPanel.tsx';
import { PausesPanel } from './pauses/PausesPanel.tsx';
import { PlayPanel } from './play/PlayPanel.tsx';
import { RetimePanel } from './retime/RetimePanel.tsx';
import { VersionsPanel } from './versions/VersionsPanel.tsx';

export interface PanelEntry {
  readonly name: PacePanel;
  readonly words: string;
  readonly about: string;
  readonly Panel: FunctionComponent<{ readonly plan: Plan }>;
}

export const PANELS: readonly PanelEntry[] = [
  { name: 'retime', words: 'Retime', about: 'marks, moves and pauses, and how long each lasts', Panel: RetimePanel },
  { name: 'holds', words: 'Holds', about: 'on ones, twos, or mixed along the way', Panel: HoldsPanel },
  { name: 'pauses', words: 'Pauses', about: 'keeping pauses alive, and what is dead', Panel: PausesPanel },
  { name: 'leads', words: 'Leads', about: 'limbs compared: which is faster, which leads, what overlaps', Panel: LeadsPanel },
  { name: 'play', words: 'Play', about: 'the plan at its speed, with a click; a stopwatch to tap along', Panel: PlayPanel },
  { name: 'versions', words: 'Versions', about: 'timings kept under a name and compared', Panel: VersionsPanel },
];
