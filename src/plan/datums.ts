/**
 * Readings that take built-up error out of the real puppet: where a point stands over the stage floor, and how far from a
 * mark on it, as one reads with a height gauge and a rule. Computed from the same rounded turns that the rows order.
 */
import { readVec3 } from '../numeric/vector3.ts';
import type { ChainPoint } from '../puppet/chainPoints.ts';
import type { DatumSettings } from '../puppet/puppetSettings.ts';

export interface Datum {
  /** From 1. */
  readonly step: number;
  /** Name of the point. */
  readonly point: string;
  /** Above the stage floor, mm. */
  readonly heightMm: number;
  /** Along the floor from the mark to under the point, mm. */
  readonly fromMarkMm: number;
}

/** Whether a step (from 1) has readings: the first, every so many after it, and those that were chosen. */
export function hasDatum({ everySteps, atSteps }: DatumSettings, step: number): boolean {
  return atSteps.includes(step) || (everySteps > 0 && (step - 1) % everySteps === 0);
}

/**
 * The readings in the order of the steps; steps without a pose have none.
 *
 * @param pointMm `[N·C·3]` places of the points on the set
 */
export function datumsOf(points: readonly ChainPoint[], pointMm: Float64Array, settings: DatumSettings): readonly Datum[] {
  const count = points.length === 0 ? 0 : pointMm.length / (points.length * 3);
  const [markX, markZ] = settings.markMm;
  const out: Datum[] = [];
  for (let s = 0; s < count; s++) {
    if (!hasDatum(settings, s + 1)) continue;
    points.forEach(({ name }, c) => {
      if (settings.points !== null && !settings.points.includes(name)) return;
      const [x, y, z] = readVec3(pointMm, s * points.length + c);
      if (!Number.isNaN(x)) out.push({ step: s + 1, point: name, heightMm: y, fromMarkMm: Math.hypot(x - markX, z - markZ) });
    });
  }
  return out;
}
