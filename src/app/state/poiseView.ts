/** How the Poise screen is looked at: nothing of it is saved with the book. */
import { createStore } from 'zustand/vanilla';

export const POISE_PANELS = ['verdict', 'figure', 'needs', 'touches', 'carries'] as const;
export type PoisePanel = (typeof POISE_PANELS)[number];

export interface PoiseView {
  readonly panel: PoisePanel;
  /** Margins of standing as a correction that is looked at would make them, `[N]`; `null`: none. */
  readonly afterMm: Float64Array | null;
}

export const poiseView = createStore<PoiseView>(() => ({ panel: 'verdict', afterMm: null }));
