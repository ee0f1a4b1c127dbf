/**
 * Writes into a drawing only what is new in it. A browser lays out and paints anew whatever is written, also where it says the same as
 * before; while a mark is dragged, most of a picture stays as it is from one frame to the next.
 */
import type { BaseType, Selection } from 'd3';

type Value = string | number | null;
type ValueOf<D> = Value | ((datum: D) => Value);

/**
 * Sets attributes that have another value, and takes away those whose value is `null`.
 *
 * @returns the same selection
 */
export function put<E extends Element, D, P extends BaseType, G>(
  selection: Selection<E, D, P, G>, attributes: Readonly<Record<string, ValueOf<D>>>,
): Selection<E, D, P, G> {
  const all = Object.entries(attributes);
  return selection.each(function write(datum) {
    for (const [name, of] of all) {
      const value = typeof of === 'function' ? of(datum) : of;
      if (value === null) this.removeAttribute(name);
      else if (this.getAttribute(name) !== String(value)) this.setAttribute(name, String(value));
    }
  });
}

/** Brings elements to the end of their parent, in their order, where they are not there already. */
export function putLast<E extends Element, D, P extends BaseType, G>(selection: Selection<E, D, P, G>): Selection<E, D, P, G> {
  const wanted = selection.nodes();
  const children = wanted[0]?.parentElement?.children;
  if (children === undefined) return selection;
  const from = children.length - wanted.length;
  return wanted.some((element, i) => children[from + i] !== element) ? selection.raise() : selection;
}
