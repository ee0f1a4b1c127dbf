/** How the Poise screen is looked at: nothing of it is saved with the book. */
import { createStore } from 'zustand/vanilla';
import type { PoiseCorrection } from '../../balance/poiseSettings.ts';

export const POISE_PANELS = ['verdict', 'needs', 'air', 'touches', 'carries'] as const;
export type PoisePanel = (typeof POISE_PANELS)[number];

export interface PoiseView {
  readonly panel: PoisePanel;
  /** Margins of standing as a correction that is looked at would make them, `[N]`; `null`: none. */
  readonly afterMm: Float64Array | null;
  /** The correction that is looked at and not in the book. */
  readonly tried: PoiseCorrection | null;
  /** Where corrections are applied: the pose without them is drawn as well. */
  readonly besideBefore: boolean;
}

export const poiseView = createStore<PoiseView>(() => ({ panel: 'verdict', afterMm: null, tried: null, besideBefore: true }));
