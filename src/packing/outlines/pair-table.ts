/** A value for each ordered pair of numbers below `count`, made when first asked for. */
export interface PairTable<Value> {
  (first: number, second: number): Value;
  /** The values that are there for one first number, by the second one: a loop looks here before it asks. */
  readonly row: (first: number) => readonly (Value | undefined)[];
}

/** What a pair table works with. */
export interface PairRule<Value> {
  readonly count: number;
  readonly make: (first: number, second: number) => Value;
  /** How much a value fills, and how much may be filled in all. */
  readonly sizeOf: (value: Value) => number;
  readonly room: number;
}

/** The values are kept; when they fill more than the room, all are forgotten and made anew as needed. */
export function pairTable<Value>({ count, make, sizeOf, room }: PairRule<Value>): PairTable<Value> {
  const rows: (Value | undefined)[][] = Array.from({ length: count }, () => []);
  let filled = 0;
  const at = (first: number, second: number): Value => {
    const known = rows[first]?.[second];
    if (known !== undefined) return known;
    const value = make(first, second);
    filled += sizeOf(value);
    if (filled > room) {
      for (const row of rows) row.length = 0;
      filled = sizeOf(value);
    }
    (rows[first] as (Value | undefined)[])[second] = value;
    return value;
  };
  return Object.assign(at, { row: (first: number) => rows[first] as (Value | undefined)[] });
}
