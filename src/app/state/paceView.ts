/** How the Pace screen is looked at: nothing of it is saved with the book. */
import { createStore } from 'zustand/vanilla';
import type { JointName } from '../../motion/joints.ts';
import type { MomentsOf } from '../../timing/moments/moments.ts';

/** What runs along the rows. */
export const PACE_VIEWS = ['joints', 'limbs', 'moves', 'readouts'] as const;
export type PaceViewName = (typeof PACE_VIEWS)[number];

/** What stands at the side. */
export const PACE_PANELS = ['retime', 'holds', 'pauses', 'leads', 'play', 'versions'] as const;
export type PacePanel = (typeof PACE_PANELS)[number];

export const RATE_UNITS = ['deg', 'mm', 'heights'] as const;
export type RateUnit = (typeof RATE_UNITS)[number];

export interface PaceView {
  readonly view: PaceViewName;
  readonly panel: PacePanel;
  /** Whose moves and pauses the rail shows. */
  readonly of: MomentsOf;
  /** The mark that is chosen, by id. */
  readonly picked: string | null;
  /** The mark whose grip is to take the focus as soon as it is there, by id. */
  readonly wanted: string | null;
  /** Steps (from 0, both included) that limbs are compared over; `null`: the whole plan. */
  readonly span: readonly [from: number, to: number] | null;
  readonly unit: RateUnit;
  /** The performer's joint whose readouts are shown. */
  readonly readOut: JointName;
  /** Limbs that are not drawn. */
  readonly hidden: readonly string[];
  /** Ids of the kept timings that are compared with the present one. */
  readonly compared: string | null;
}

export const paceView = createStore<PaceView>(() => ({
  view: 'joints', panel: 'retime', of: 'body', picked: null, wanted: null, span: null, unit: 'deg', readOut: 'leftShoulder', hidden: [], compared: null,
}));
