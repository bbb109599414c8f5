/**
 * The same function, which reckons once for each thing it is asked of and remembers that as long as the thing is there. Plans and jobs never change, and what
 * is asked for every piece would otherwise cost the square of their number.
 */
export function oncePer<Of extends object, Result>(reckon: (of: Of) => Result): (of: Of) => Result {
  const known = new WeakMap<Of, { readonly result: Result }>();
  return (of) => {
    const found = known.get(of) ?? { result: reckon(of) };
    known.set(of, found);
    return found.result;
  };
}
