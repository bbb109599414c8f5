/**
 * The field of the squared pressure in the spoilboard under a square piece with an open kerf all round, in three
 * dimensions, by finite differences.
 *
 * A quarter of the board is cut into cubes. The kerf is 1, the underside 0; the piece and the sheet beyond the kerf let
 * nothing through, nor do the sides. Each value is moved to and past the mean of its neighbours, again and again
 * (successive over-relaxation), until all agree.
 * All lengths are in mm.
 */
export interface Square {
  readonly side: number;
  readonly kerf: number;
  readonly board: number;
  /** Covered board beyond the kerf. */
  readonly beyond: number;
}

/**
 * The share of the vacuum that is left under the piece on average, for each of `insideShares`, the pressure under the
 * board over that of the air; at 1 the vacuum is the field itself. `cube` must divide the board, the kerf, what lies
 * beyond, and the side.
 */
export function vacuumLeft(
  { side, kerf, board, beyond }: Square,
  cube: number,
  insideShares: readonly number[],
): readonly number[] {
  // Where half the side is not a whole number of cubes, the middle of the piece lies between two values.
  const shift = (side / 2 / cube) % 1;
  const edge = Math.round(side / 2 / cube - shift);
  const grid: Grid = {
    edge,
    outer: edge + Math.round(kerf / cube),
    end: edge + Math.round((kerf + beyond) / cube),
    layers: Math.round(board / cube),
    mirror: shift === 0 ? 1 : 0,
  };
  const values = relaxed(grid);
  return insideShares.map((inside) => 1 - meanUnderPiece(values, grid, (v) => lost(v, inside)));
}

/** Values run from the middle of the piece: the kerf from `edge` to `outer`. */
interface Grid {
  readonly edge: number;
  readonly outer: number;
  readonly end: number;
  readonly layers: number;
  /** The neighbour of value 0 towards the middle. */
  readonly mirror: 0 | 1;
}

const SETTLED = 1e-6;

/** Layer by layer from the underside, which is layer 0. */
function relaxed({ edge, outer, end, layers, mirror }: Grid): Float64Array {
  const row = end + 1;
  const layer = row * row;
  const values = new Float64Array(layer * (layers + 1));
  const top = layer * layers;
  const isKerf = (x: number, y: number): boolean =>
    Math.max(x, y) >= edge && Math.max(x, y) <= outer;
  for (let y = 0; y <= end; y++)
    for (let x = 0; x <= end; x++) if (isKerf(x, y)) values[top + y * row + x] = 1;
  // The slowest wave of the error stands a quarter of its length between the underside and the piece.
  const slowest = (2 + Math.cos(Math.PI / (2 * layers))) / 3;
  const factor = 2 / (1 + Math.sqrt(1 - slowest * slowest));
  for (let change = 1; change > SETTLED; ) {
    change = 0;
    for (let z = 1; z <= layers; z++)
      for (let y = 0; y <= end; y++)
        for (let x = 0; x <= end; x++) {
          if (z === layers && isKerf(x, y)) continue;
          const at = z * layer + y * row + x;
          const west = x > 0 ? at - 1 : at + mirror;
          const east = x < end ? at + 1 : at - 1;
          const south = y > 0 ? at - row : at + mirror * row;
          const north = y < end ? at + row : at - row;
          const above = z < layers ? at + layer : at - layer;
          const sum =
            values[west]! +
            values[east]! +
            values[south]! +
            values[north]! +
            values[above]! +
            values[at - layer]!;
          const move = factor * (sum / 6 - values[at]!);
          values[at]! += move;
          change = Math.max(change, Math.abs(move));
        }
  }
  return values;
}

/** Share of the vacuum that is lost where the field has a value. */
export function lost(value: number, insideShare: number): number {
  if (insideShare === 1) return value;
  const inside2 = insideShare * insideShare;
  return (Math.sqrt(inside2 + value * (1 - inside2)) - insideShare) / (1 - insideShare);
}

/** By the trapezoidal rule: values on the edge count half, and so do those on a mirror. */
function meanUnderPiece(
  values: Float64Array,
  { edge, end, layers, mirror }: Grid,
  lostAt: (value: number) => number,
): number {
  const row = end + 1;
  const weight = (k: number): number => (k === edge || (k === 0 && mirror === 1) ? 0.5 : 1);
  let [sum, weights] = [0, 0];
  for (let y = 0; y <= edge; y++)
    for (let x = 0; x <= edge; x++) {
      const each = weight(x) * weight(y);
      sum += each * lostAt(values[(layers * row + y) * row + x]!);
      weights += each;
    }
  return sum / weights;
}
