/** A readout's column: nothing is drawn of a value that can't be told, and its zone is no gap. */
import { describe, expect, it } from 'vitest';
import { readoutColumn, readoutRows } from '../../../src/charts/readouts/readoutColumn.ts';
import { rowScale } from '../../../src/charts/rowScale.ts';
import { STATE_BRIDGED, STATE_MEASURED, STATE_MISSING } from '../../../src/motion/motion.ts';

const rows = rowScale(6, 20);
const all = { first: 0, last: 5 };
const joint = {
  joint: 'leftShoulder', unsure: new Uint8Array(6), readings: [],
  state: Uint8Array.of(STATE_MEASURED, STATE_MEASURED, STATE_MEASURED, STATE_MEASURED, STATE_BRIDGED, STATE_MISSING),
} as const;
const reading = {
  id: 'leftShoulder.plane', deg: Float64Array.of(10, 20, 170, -170, 30, Number.NaN), singular: Uint8Array.of(0, 0, 1, 1, 0, 0),
  errorDeg: Float32Array.of(4, 4, 90, 90, 5, Number.NaN),
};

describe('the column of a readout', () => {
  it('marks the zone, leaves its value out of curve and scale, and does not call it a gap', () => {
    const own = readoutRows(joint, reading, false);
    expect(own.domain).toEqual([10, 30]);
    const column = readoutColumn(rows, all, 200, own);
    expect(column.zone).toEqual([{ y: 40, height: 40 }]);
    expect(column.missing).toEqual([{ y: 100, height: 20 }]);
    expect(column.dots.map(({ index }) => index)).toEqual([0, 1, 4]);
    expect(column.solidPath.match(/L/g)).toHaveLength(1);
    expect(column.dashedPath).toBe('');
    expect(`${column.bandPath}${column.unsureBandPath}`).not.toContain('NaN');
  });

  it('draws what is inferred as unsure throughout, and has a scale where nothing is known', () => {
    const own = readoutRows(joint, { ...reading, singular: new Uint8Array(6) }, true);
    expect(own.certainty(0)).toBe('unsure');
    expect(own.certainty(5)).toBe('missing');
    expect(readoutRows(joint, { ...reading, deg: new Float64Array(6).fill(Number.NaN) }, false).domain).toEqual([0, 10]);
  });
});
