/** Tables and marked parts of documents, and the quantiles that stand in them. */
import { describe, expect, it } from 'vitest';
import { markers, replaceBetweenMarkers } from '../../scripts/bench/document/betweenMarkers.ts';
import { markdownTable } from '../../scripts/bench/document/markdownTable.ts';
import { median, percentile } from '../../scripts/bench/percentile.ts';

describe('a Markdown table', () => {
  it('is padded, sets figures flush right and keeps bars inside a cell', () => {
    expect(markdownTable(['what', 'ms|r'], [['a|b', '1.5'], ['long name', '12']])).toBe(
      '| what      |  ms |\n| --------- | --: |\n| a\\|b      | 1.5 |\n| long name |  12 |\n',
    );
  });
});

describe('a marked part', () => {
  const [start, end] = markers('results');
  it('is replaced, and nothing around it is touched', () => {
    const made = replaceBetweenMarkers(`before\n${start}\nold\n${end}\nafter`, 'results', 'new\n');
    expect(made).toBe(`before\n${start}\n\nnew\n\n${end}\nafter`);
    expect(replaceBetweenMarkers(made, 'results', 'new')).toBe(made);
  });
  it('is refused where the markers are missing, doubled or swapped', () => {
    for (const bad of ['none', start, `${end} ${start}`, `${start} ${end} ${start} ${end}`]) {
      expect(() => replaceBetweenMarkers(bad, 'results', 'x')).toThrow(/markers|needs the lines/);
    }
  });
});

describe('quantiles', () => {
  it('are those of type 7', () => {
    // Worked by hand: h = (n - 1) p.
    expect(median([4, 1, 3, 2])).toBe(2.5);
    expect(percentile([1, 2, 3, 4, 5], 0.95)).toBeCloseTo(4.8, 12);
    expect(percentile([7], 0.95)).toBe(7);
    expect(() => percentile([], 0.5)).toThrow(RangeError);
  });
});
