/** Writing into a drawing, with elements that count what is written to them. */
import { selectAll } from 'd3';
import { describe, expect, it } from 'vitest';
import { put, putLast } from '../../src/charts/sparing.ts';

class Counted {
  readonly written: string[] = [];
  readonly values = new Map<string, string>();
  getAttribute(name: string): string | null { return this.values.get(name) ?? null; }
  setAttribute(name: string, value: string): void { this.written.push(`${name}=${value}`); this.values.set(name, value); }
  removeAttribute(name: string): void { this.values.delete(name); }
}

const selected = (elements: readonly Counted[], data: readonly number[]) => selectAll<Element, unknown>(elements as unknown as Element[]).data(data);

describe('writing what is new', () => {
  it('writes every attribute once and then only the one that changed', () => {
    const elements = [new Counted(), new Counted()];
    put(selected(elements, [1, 2]), { class: 'dot', x: (d) => d });
    put(selected(elements, [1, 3]), { class: 'dot', x: (d) => d });
    expect(elements.map(({ written }) => written)).toEqual([['class=dot', 'x=1'], ['class=dot', 'x=2', 'x=3']]);
  });

  it('takes away what has no value any more', () => {
    const element = new Counted();
    put(selected([element], [1]), { d: 'M0,0' });
    put(selected([element], [1]), { d: null });
    expect(element.getAttribute('d')).toBeNull();
  });

  it('moves elements to the end of their parent only where something stands behind them', () => {
    const parent = { children: [] as unknown[], moved: 0, appendChild(child: unknown) { this.moved += 1; this.children = [...this.children.filter((one) => one !== child), child]; } };
    const [line, a, b] = ['line', 'a', 'b'].map((name) => ({ name, parentElement: parent, parentNode: parent, nextSibling: {} }));
    parent.children = [line, a, b];
    putLast(selectAll([a, b] as unknown as Element[]));
    expect(parent.moved).toBe(0);
    parent.children = [a, b, line];
    putLast(selectAll([a, b] as unknown as Element[]));
    expect(parent.children).toEqual([line, a, b]);
  });
});
