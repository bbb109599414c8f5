/** A value for each index, made when first asked for and kept. */
export function kept<Value>(make: (index: number) => Value): (index: number) => Value {
  const known: (Value | undefined)[] = [];
  return (index) => {
    const own = known[index] ?? make(index);
    known[index] = own;
    return own;
  };
}
