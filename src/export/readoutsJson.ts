/** The performer's readouts as `plan.json` carries them. */
import type { JointName } from '../motion/joints.ts';
import { READOUTS, readoutSeries } from '../motion/readouts/catalogue.ts';
import type { ReadoutSource } from '../motion/readouts/readout.ts';
import type { Poses } from '../timing/poses.ts';
import { PLACES, rounded } from './rounding.ts';

/** One readout at every step. Left and right are the performer's own. */
export interface PlanJsonReadout {
  /** The performer's joint that it is read from. */
  readonly joint: JointName;
  readonly label: string;
  /** What a positive value means. */
  readonly positive: string;
  readonly from: ReadoutSource;
  /** Published convention followed, or "ours". */
  readonly source: string;
  /** Where it can't be told, in words; `null` where it always can. */
  readonly zone: string | null;
  /** As many as there are steps; `null` where there is no pose. */
  readonly deg: readonly (number | null)[];
  /** Steps, from 1, at which the value stands in that zone. */
  readonly zoneSteps: readonly number[];
}

/** Under their ids, such as `leftShoulder.elevation`. */
export type PlanJsonReadouts = Readonly<Record<string, PlanJsonReadout>>;

/** @param poses the performer's poses at the plan's steps */
export function readoutsToJson(poses: Poses): PlanJsonReadouts {
  return Object.fromEntries(READOUTS.map((readout) => {
    const { joint, label, positive, from, source, zone } = readout;
    const { deg, singular } = readoutSeries(poses, readout);
    return [readout.id, {
      joint, label, positive, from, source, zone,
      deg: Array.from(deg, (value) => rounded(value, PLACES.degrees)),
      zoneSteps: Array.from(singular.keys()).filter((s) => singular[s] === 1).map((s) => s + 1),
    }];
  }));
}
