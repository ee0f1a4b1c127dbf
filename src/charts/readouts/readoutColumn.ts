/**
 * A readout beside the rows: its curve and error as every angle has them, and, boxed, the steps at which
 * it stands in a zone where it can't be told. There its value means nothing and is not drawn.
 */
import { select } from 'd3';
import type { Reading, Readings } from '../../motion/readouts/readings.ts';
import { angleColumn, type AngleColumn, type Band, bandsOf, curveOfSteps, degreeDomain, drawAngleColumn, type RowCurve, type RowValues } from '../angleColumn.ts';
import { type Certainty, certaintyOf } from '../certainty.ts';
import type { RowScale, RowWindow } from '../rowScale.ts';
import { put } from '../sparing.ts';

export interface ReadoutRows {
  readonly values: RowValues;
  readonly curve: RowCurve;
  readonly domain: readonly [number, number];
  /** Whether the value of a step stands in the zone. */
  readonly inZone: (index: number) => boolean;
  /** One sigma, degrees; NaN where not known. */
  readonly errorDeg: (index: number) => number;
  /** What is known of the joint, whatever the zone. */
  readonly certainty: (index: number) => Certainty;
  /** Steps that were read: while a plan is retimed there may be rows beyond them. */
  readonly count: number;
}

/** @param inferred not seen at all: drawn as unsure throughout */
export function readoutRows({ state, unsure }: Readings, { deg, singular, errorDeg }: Reading, inferred: boolean): ReadoutRows {
  const certainty = (index: number): Certainty => {
    const known = certaintyOf(state[index], unsure[index], deg[index]);
    return inferred && known === 'measured' ? 'unsure' : known;
  };
  const inZone = (index: number): boolean => singular[index] === 1;
  const values: RowValues = { value: (index) => deg[index] ?? Number.NaN, certainty: (index) => (inZone(index) ? 'missing' : certainty(index)) };
  const error = (index: number): number => errorDeg[index] ?? Number.NaN;
  const curve: RowCurve = { ...curveOfSteps(deg.length, values), errorDeg: error };
  return { values, curve, domain: degreeDomain(curve), inZone, errorDeg: error, certainty, count: deg.length };
}

export interface ReadoutColumn extends AngleColumn {
  readonly zone: readonly Band[];
}

export function readoutColumn(rows: RowScale, window: RowWindow, widthPx: number, { values, curve, domain, inZone, certainty, count }: ReadoutRows): ReadoutColumn {
  const told: RowValues = { value: values.value, certainty: (index) => (inZone(index) || index >= count ? 'measured' : certainty(index)) };
  const zone: RowValues = { value: values.value, certainty: (index) => (inZone(index) ? 'unsure' : 'measured') };
  return {
    ...angleColumn(rows, window, widthPx, domain, values, curve),
    // where the zone lies there is a pose: that is no gap
    missing: bandsOf(rows, window, told, 'missing'),
    zone: bandsOf(rows, window, zone, 'unsure'),
  };
}

/** Height from which a zone has its words, px. */
const WORDS_FROM_PX = 18;

/** @param id unique in the page */
export function drawReadoutColumn(svgElement: SVGSVGElement, column: ReadoutColumn, id: string): void {
  const svg = select(svgElement);
  drawAngleColumn(svgElement, column, id);
  put(
    svg.selectAll<SVGRectElement, Band>('rect.zone-band').data(column.zone).join('rect'),
    { class: 'zone-band', fill: `url(#${id}-hatch)`, x: 0.5, width: column.widthPx - 1, y: (d) => d.y + 0.5, height: (d) => Math.max(1, d.height - 1) },
  );
  put(
    svg.selectAll<SVGTextElement, Band>('text.zone-word').data(column.zone.filter(({ height }) => height >= WORDS_FROM_PX)).join('text'),
    { class: 'zone-word', x: column.widthPx / 2, y: (d) => d.y + d.height / 2 },
  ).text('can’t be told');
}
