/** Stages that make their result anew only when something they depend on has changed. */

/** The function with a memory of one: called again with the same arguments it gives the same result again. */
export function remember<A extends readonly unknown[], R>(make: (...args: A) => R): (...args: A) => R {
  let last: { readonly args: A; readonly result: R } | undefined;
  return (...args) => {
    if (last === undefined || args.some((arg, k) => !Object.is(arg, last!.args[k]))) {
      last = { args, result: make(...args) };
    }
    return last.result;
  };
}
