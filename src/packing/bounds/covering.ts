// The linear programme of covering: fewest sheets, fractions allowed, of the given contents that hold every kind as often as it occurs; we want its dual, the worth of each kind.
// Idea: the revised simplex method with an explicit inverse; columns are added as they are found, and the basis goes on from where it was.
// Source: Gilmore & Gomory 1961, "A linear programming approach to the cutting-stock problem", Operations Research 9.
// Where we differ: demands are shifted by small distinct amounts, against cycling. All is in doubles, so nothing here proves anything: who uses the worths checks them in whole numbers.
// Cost: the square of the kinds for each pivot, and the kinds in all columns for each choice; meant for some hundred kinds.
// Degenerate cases: with no column yet every kind is worth one sheet, for each may lie alone.

export interface Covering {
  /** What one piece of each kind is worth, in sheets; about none below zero. */
  readonly worths: Float64Array;
  readonly add: (kinds: readonly number[]) => void;
  /** Brings the worths up to date; false where the work or the numbers gave out. */
  readonly solve: (spend: (units: number) => boolean) => boolean;
}

const LEAST_GAIN = 1e-7;
const LEAST_PIVOT = 1e-7;
const SHIFT = 1e-7;
const MOST_PIVOTS = 4000;

export function newCovering(counts: ArrayLike<number>): Covering {
  const size = counts.length;
  const basis: Basis = {
    size,
    inverse: new Float64Array(size * size),
    amounts: Float64Array.from(counts, (count, i) => count + (1 + ((i * 7919) % 101)) * SHIFT),
    costs: new Float64Array(size).fill(1),
    worths: new Float64Array(size).fill(1),
    entering: new Float64Array(size),
  };
  for (let i = 0; i < size; i++) basis.inverse[i * size + i] = 1;
  const columns: Int32Array[] = [];
  return {
    worths: basis.worths,
    add: (kinds) => columns.push(Int32Array.from(kinds)),
    solve: (spend) => {
      for (let pivots = 0; pivots < MOST_PIVOTS; pivots++) {
        const cost = enterBest(basis, columns);
        if (cost === null) return true;
        if (!pivot(basis, cost) || !spend((size * size) / 8 + columns.length)) return false;
      }
      return false;
    },
  };
}

interface Basis {
  readonly size: number;
  /** Row by row. */
  readonly inverse: Float64Array;
  readonly amounts: Float64Array;
  readonly costs: Float64Array;
  readonly worths: Float64Array;
  /** The entering column in terms of the basis. */
  readonly entering: Float64Array;
}

/** Puts the column that gains most into `entering` and gives its cost: 1 for a sheet, 0 for a piece too many; null where nothing gains. */
function enterBest(basis: Basis, columns: readonly Int32Array[]): number | null {
  const { size, inverse, worths, entering } = basis;
  let most = LEAST_GAIN;
  let best: Int32Array | null = null;
  let surplus = -1;
  for (const column of columns) {
    let gain = -1;
    for (let k = 0; k < column.length; k++) gain += worths[column[k]!]!;
    if (gain <= most) continue;
    most = gain;
    best = column;
  }
  for (let i = 0; i < size; i++) {
    if (-worths[i]! <= most) continue;
    most = -worths[i]!;
    surplus = i;
  }
  if (surplus < 0 && best === null) return null;
  entering.fill(0);
  if (surplus >= 0) {
    for (let i = 0; i < size; i++) entering[i] = -inverse[i * size + surplus]!;
    return 0;
  }
  for (const kind of best!)
    for (let i = 0; i < size; i++) entering[i]! += inverse[i * size + kind]!;
  return 1;
}

/** Exchanges the entering column for the one that it empties first. */
function pivot({ size, inverse, amounts, costs, worths, entering }: Basis, cost: number): boolean {
  let out = -1;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < size; i++) {
    if (entering[i]! <= LEAST_PIVOT) continue;
    const ratio = Math.max(0, amounts[i]!) / entering[i]!;
    if (ratio >= least) continue;
    least = ratio;
    out = i;
  }
  if (out < 0) return false;
  const row = inverse.subarray(out * size, (out + 1) * size);
  const by = entering[out]!;
  for (let j = 0; j < size; j++) row[j]! /= by;
  amounts[out]! /= by;
  for (let i = 0; i < size; i++) {
    const factor = entering[i]!;
    if (i === out || factor === 0) continue;
    amounts[i]! -= factor * amounts[out]!;
    const at = i * size;
    for (let j = 0; j < size; j++) inverse[at + j]! -= factor * row[j]!;
  }
  costs[out] = cost;
  worths.fill(0);
  for (let i = 0; i < size; i++) {
    if (costs[i] === 0) continue;
    const at = i * size;
    for (let j = 0; j < size; j++) worths[j]! += inverse[at + j]!;
  }
  return true;
}
