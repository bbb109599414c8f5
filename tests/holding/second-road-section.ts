/**
 * The field of the squared pressure in the cross-section of a spoilboard under an open kerf, by finite differences.
 *
 * Half of the section is cut into squares; what flows between two neighbours is in proportion to the difference of
 * their values. The kerf is 1, the underside 0, the rest of the top and both ends let nothing through. The equations
 * are solved by elimination within their band.
 * Accuracy: the field has a corner like the square root at the end of the kerf, so the error falls only with the side
 * of the squares, and two grids give the value for none (Richardson's extrapolation).
 * All lengths are in thicknesses of the board.
 */
export interface Section {
  /** What flows through the whole section, as the width of bare board that lets as much through. */
  readonly leakWidth: number;
  /** Along the top from the end of the kerf, `1 / across` apart. */
  readonly covered: readonly number[];
  readonly across: number;
}

/** `across` squares lie in the thickness; half the kerf must be a whole number of them. */
export function sectionUnderKerf(kerf: number, beyond: number, across: number): Section {
  const open = Math.round((kerf / 2) * across);
  const along = open + Math.round(beyond * across);
  const solved = solveBanded(equations(along, across, open));
  const at = (i: number, j: number): number => solved[i * across + j - 1]!;
  let flow = 0;
  for (let i = 0; i <= along; i++) flow += at(i, 1) * (i === 0 || i === along ? 0.5 : 1);
  const covered = Array.from({ length: along - open + 1 }, (_, k) => at(open + k, across));
  return { leakWidth: 2 * flow, covered, across };
}

/** Equations of a symmetric matrix: `band[row * (width + 1) + k]` stands `k` below the diagonal of column `row`. */
interface Banded {
  readonly width: number;
  readonly band: Float64Array;
  readonly right: Float64Array;
}

/** Unknown `i * across + j - 1` is at `i` squares from the middle of the kerf and `j` from the underside. */
function equations(along: number, across: number, open: number): Banded {
  const count = (along + 1) * across;
  const width = across;
  const band = new Float64Array(count * (width + 1));
  const right = new Float64Array(count);
  const isKerf = (i: number, j: number): boolean => j === across && i <= open;
  const link = (i: number, j: number, toI: number, toJ: number, share: number): void => {
    const [a, b] = [i * across + j - 1, toI * across + toJ - 1];
    if (!isKerf(i, j)) band[a * (width + 1)]! += share;
    if (!isKerf(toI, toJ)) band[b * (width + 1)]! += share;
    if (isKerf(i, j) && !isKerf(toI, toJ)) right[b]! += share;
    else if (!isKerf(i, j) && isKerf(toI, toJ)) right[a]! += share;
    else if (!isKerf(i, j)) band[a * (width + 1) + b - a]! -= share;
  };
  for (let i = 0; i <= along; i++) {
    const column = i === 0 || i === along ? 0.5 : 1;
    if (!isKerf(i, 1)) band[i * across * (width + 1)]! += column;
    for (let j = 1; j < across; j++) link(i, j, i, j + 1, column);
    for (let j = 1; j <= across && i < along; j++) link(i, j, i + 1, j, j === across ? 0.5 : 1);
  }
  for (let i = 0; i <= open; i++) {
    band[(i * across + across - 1) * (width + 1)] = 1;
    right[i * across + across - 1] = 1;
  }
  return { width, band, right };
}

/** By elimination without pivots, which a positive matrix needs none of. */
function solveBanded({ width, band, right }: Banded): Float64Array {
  const count = right.length;
  const step = width + 1;
  for (let k = 0; k < count; k++) {
    const last = Math.min(width, count - 1 - k);
    for (let a = 1; a <= last; a++) {
      const factor = band[k * step + a]! / band[k * step]!;
      if (factor === 0) continue;
      for (let b = a; b <= last; b++) band[(k + a) * step + b - a]! -= factor * band[k * step + b]!;
      right[k + a]! -= factor * right[k]!;
    }
  }
  const solved = new Float64Array(count);
  for (let k = count - 1; k >= 0; k--) {
    let sum = right[k]!;
    for (let a = 1; a <= Math.min(width, count - 1 - k); a++)
      sum -= band[k * step + a]! * solved[k + a]!;
    solved[k] = sum / band[k * step]!;
  }
  return solved;
}
