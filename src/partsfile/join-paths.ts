/**
 * Joins the open runs of a drawing, in whatever order and direction they were drawn, to closed loops.
 *
 * Two ends that are no farther apart than the stated gap belong together, the nearest pair first; what follows from end to
 * partner until it comes back is a loop. An end without a partner is a gap, and an end near a pair that is taken already,
 * or a third one at the same point, is a branch: which way the outline goes on there is not for us to choose. What is
 * drawn twice, one exactly on the other, counts once.
 * Source: none; ends are found by a grid of squares as wide as the gap.
 * Cost: n log n in the ends; where there is a gap, once all pairs of loose ends.
 * Degenerate: a run without extent is left out; a run that comes back to its own start is a loop; of one shorter than the gap
 * the two ends are never joined to each other.
 */
import type { FinePoint, FineSide } from './arcs-from-curves.ts';
import { GAP } from './contours.ts';
import { type FinePath, reversePath } from './fine-path.ts';

/** Two ends that nothing joins. */
export interface Gap {
  readonly from: FinePoint;
  readonly to: FinePoint;
  readonly width: number;
}

export type Joined =
  | { readonly kind: 'loops'; readonly loops: readonly FinePath[] }
  /** The narrowest gap, and how many loose ends there are in all. */
  | { readonly kind: 'gap'; readonly gap: Gap; readonly ends: number }
  | { readonly kind: 'branch'; readonly at: FinePoint };

/** Ends this near were meant to be the same point by the drawing program: 0.25 µm. */
const SAME = 2;

export function joinPaths(paths: readonly FinePath[]): Joined {
  const drawn = withoutRepeats(paths.filter(hasExtent));
  const open = drawn.filter((path) => !isClosed(path));
  const ends = open.flatMap((path) => [path.start, endOf(path)]);
  const { pairs, crowd } = nearPairs(ends, open);
  const partners = partnersOf(pairs);
  const branch = crowd ?? branchOf(pairs, partners, ends);
  if (branch !== null) return { kind: 'branch', at: branch };
  const loose = ends.filter((_, i) => !partners.has(i));
  const closed = drawn.filter(isClosed);
  return loose.length > 0
    ? { kind: 'gap', gap: narrowest(loose), ends: loose.length }
    : { kind: 'loops', loops: [...closed, ...followed(open, partners)] };
}

function partnersOf(pairs: readonly Pair[]): ReadonlyMap<number, number> {
  const partners = new Map<number, number>();
  for (const { one, two } of pairs) {
    if (partners.has(one) || partners.has(two)) continue;
    partners.set(one, two);
    partners.set(two, one);
  }
  return partners;
}

/** The lowest of the places at the left where an end has more than one to go on with. */
function branchOf(
  pairs: readonly Pair[],
  partners: ReadonlyMap<number, number>,
  ends: readonly FinePoint[],
): FinePoint | null {
  const spare = pairs.filter(
    ({ one, two, square }) =>
      partners.get(one) !== two &&
      (square <= SAME * SAME || !partners.has(one) || !partners.has(two)),
  );
  return spare.map(({ one }) => ends[one] as FinePoint).sort(leftFirst)[0] ?? null;
}

function leftFirst(a: FinePoint, b: FinePoint): number {
  return a.x - b.x || a.y - b.y;
}

function endOf({ start, sides }: FinePath): FinePoint {
  return sides.at(-1)?.to ?? start;
}

function pointsOf({ start, sides }: FinePath): readonly FinePoint[] {
  return [start, ...sides.flatMap(({ via, to }) => (via === null ? [to] : [via, to]))];
}

function hasExtent(path: FinePath): boolean {
  return pointsOf(path).some((p) => SAME * SAME < squareBetween(p, path.start));
}

/** Closed by its text, or back within the gap of where it began after having left it. */
function isClosed(path: FinePath): boolean {
  if (path.closed) return true;
  return squareBetween(path.start, endOf(path)) <= GAP * GAP && leavesGap(path);
}

function leavesGap(path: FinePath): boolean {
  return pointsOf(path).some((p) => GAP * GAP < squareBetween(p, path.start));
}

function squareBetween(a: FinePoint, b: FinePoint): number {
  return (a.x - b.x) ** 2 + (a.y - b.y) ** 2;
}

/** Without runs that repeat another one, whichever way round, and without single lines or arcs that lie on a side of one. */
function withoutRepeats(paths: readonly FinePath[]): readonly FinePath[] {
  const wholes = new Map(paths.map((path) => [sideKeys(path).sort().join(' '), path] as const));
  const once = [...wholes.values()];
  const within = new Set(once.filter(({ sides }) => sides.length > 1).flatMap(sideKeys));
  return once.filter((path) => path.sides.length > 1 || !within.has(sideKeys(path)[0] ?? ''));
}

/** The sides on the grid, the same for either direction. */
function sideKeys({ start, sides }: FinePath): string[] {
  let from = start;
  return sides.map(({ via, to }) => {
    const ends = [from, to].map(keyOf).sort();
    from = to;
    return `${ends.join('_')}_${via === null ? '' : keyOf(via)}`;
  });
}

function keyOf({ x, y }: FinePoint): string {
  return `${Math.round(x) + 0},${Math.round(y) + 0}`;
}

interface Pair {
  readonly one: number;
  readonly two: number;
  readonly square: number;
}

/** So many ends near one another no drawing of a part has, and all pairs of thousands at one point would not fit the memory. */
const MOST_NEAR = 40;

/** All pairs of ends within the gap, the nearest first; ends 2k and 2k + 1 are those of run k. `crowd` is an end with too many near it. */
function nearPairs(
  ends: readonly FinePoint[],
  open: readonly FinePath[],
): { readonly pairs: readonly Pair[]; readonly crowd: FinePoint | null } {
  const cells = new Map<string, number[]>();
  const pairs: Pair[] = [];
  for (const [two, end] of ends.entries()) {
    const near = cellsAround(end)
      .flatMap((cell) => cells.get(cell) ?? [])
      .map((one) => ({ one, two, square: squareBetween(end, ends[one] as FinePoint) }))
      .filter(({ square }) => square <= GAP * GAP);
    if (MOST_NEAR < near.length) return { pairs: [], crowd: end };
    const isOwn = ({ one }: Pair) =>
      one >> 1 === two >> 1 && !leavesGap(open[one >> 1] as FinePath);
    pairs.push(...near.filter((pair) => !isOwn(pair)));
    const cell = cellOf(Math.floor(end.x / GAP), Math.floor(end.y / GAP));
    cells.set(cell, [...(cells.get(cell) ?? []), two]);
  }
  return { pairs: pairs.sort((a, b) => a.square - b.square), crowd: null };
}

function cellOf(column: number, row: number): string {
  return `${column},${row}`;
}

function cellsAround({ x, y }: FinePoint): readonly string[] {
  const [column, row] = [Math.floor(x / GAP), Math.floor(y / GAP)];
  return [-1, 0, 1].flatMap((i) => [-1, 0, 1].map((j) => cellOf(column + i, row + j)));
}

/** The two loose ends nearest to each other. */
function narrowest(loose: readonly FinePoint[]): Gap {
  const sorted = loose.toSorted(leftFirst);
  let best: Gap = { from: sorted[0]!, to: sorted[1]!, width: Number.POSITIVE_INFINITY };
  sorted.forEach((from, i) => {
    for (let j = i + 1; j < sorted.length; j++) {
      const to = sorted[j] as FinePoint;
      if (best.width < to.x - from.x) break;
      const width = Math.sqrt(squareBetween(from, to));
      if (width < best.width) best = { from, to, width };
    }
  });
  return best;
}

/** The loops that one comes to by going on from each end to its partner. */
function followed(
  open: readonly FinePath[],
  partners: ReadonlyMap<number, number>,
): readonly FinePath[] {
  const done = new Set<number>();
  return open.flatMap((first, k) => {
    if (done.has(k)) return [];
    const sides: FineSide[] = [];
    for (let entry = 2 * k; !done.has(entry >> 1); ) {
      done.add(entry >> 1);
      const run = open[entry >> 1] as FinePath;
      const forward = entry % 2 === 0 ? run : reversePath(run);
      const exit = entry ^ 1;
      const next = partners.get(exit) ?? exit;
      const joint =
        next % 2 === 0 ? (open[next >> 1] as FinePath).start : endOf(open[next >> 1] as FinePath);
      forward.sides.forEach(({ via, to }, i) => {
        sides.push({ via, to: i === forward.sides.length - 1 ? joint : to });
      });
      entry = next;
    }
    return [{ start: first.start, sides, closed: true }];
  });
}
