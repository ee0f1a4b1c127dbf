/**
 * A Markdown table from rows of words, padded so that it also reads well in a terminal.
 */

/**
 * @param heads titles of the columns; one that ends in `|r` is set flush right (for figures) and loses the mark
 * @param rows cells in the order of the heads; a missing cell is left empty
 * @returns the table with a line feed at the end of every line
 */
export function markdownTable(heads: readonly string[], rows: readonly (readonly string[])[]): string {
  const right = heads.map((head) => head.endsWith('|r'));
  const lines = [heads.map((head) => head.replace(/\|r$/, '')), ...rows.map((row) => heads.map((_, i) => row[i] ?? ''))];
  // A bar inside a cell would end the cell.
  const safe = lines.map((line) => line.map((cell) => cell.replaceAll('|', '\\|')));
  const widths = heads.map((_, i) => Math.max(3, ...safe.map((line) => [...line[i]!].length)));
  const pad = (cell: string, i: number): string => {
    const gap = ' '.repeat(widths[i]! - [...cell].length);
    return right[i] ? gap + cell : cell + gap;
  };
  const print = (cells: readonly string[]): string => `| ${cells.join(' | ')} |\n`;
  const rule = widths.map((width, i) => (right[i] ? `${'-'.repeat(width - 1)}:` : '-'.repeat(width)));
  return print(safe[0]!.map(pad)) + print(rule) + safe.slice(1).map((line) => print(line.map(pad))).join('');
}
