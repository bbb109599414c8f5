// Cuts what no piece may touch out of a sheet, so that only clean panels are left.
// Idea: cuts along the edges of the obstacles split the sheet, each time the one that leaves the largest clean panel, until every panel is clean or closed.
// Source: common practice at the saw, no source.
// Cost: cubic in the obstacles, of which a sheet has few.
// Degenerate cases: no obstacle: the sheet itself; obstacles all over: no panel. Where stages are counted only cuts of the first direction are made, since
//   every other would cost a stage.
import { type Box, boxesOverlap } from '../../geometry/box.ts';
import { type Direction, ROW } from './slicing-tree.ts';

/** `first` says how the first cut runs: between the children of a row or of a column. */
export function panelsOf(
  sheet: Box,
  obstacles: readonly Box[],
  first: Direction,
  isCounted: boolean,
): readonly Box[] {
  const isFirstTold = (cut: Cut) => cut.isAcrossX === (first === ROW);
  const inside = obstacles.filter((box) => boxesOverlap(box, sheet));
  if (inside.length === 0) return isEmpty(sheet) ? [] : [sheet];
  if (isCounted) return splitAll(sheet, inside, isFirstTold);
  const told = bestSplit(sheet, inside, isFirstTold);
  if (told === null) return splitAll(sheet, inside, () => true);
  return told.flatMap((half) => splitAll(half, inside, () => true));
}

function splitAll(
  panel: Box,
  obstacles: readonly Box[],
  isAllowed: (cut: Cut) => boolean,
): readonly Box[] {
  const inside = obstacles.filter((box) => boxesOverlap(box, panel));
  if (inside.length === 0) return isEmpty(panel) ? [] : [panel];
  const halves = bestSplit(panel, inside, isAllowed) ?? [];
  return halves.flatMap((half) => splitAll(half, inside, isAllowed));
}

/** The two halves of the split that leaves the largest clean one; null where no cut splits the panel. */
function bestSplit(
  panel: Box,
  obstacles: readonly Box[],
  isAllowed: (cut: Cut) => boolean,
): readonly Box[] | null {
  let best: readonly Box[] | null = null;
  let most = -1;
  for (const cut of obstacles.flatMap(cutsAlong).filter(isAllowed)) {
    const halves = split(panel, cut);
    if (halves.some(isEmpty)) continue;
    const clean = halves.filter((half) => !obstacles.some((box) => boxesOverlap(box, half)));
    const largest = Math.max(0, ...clean.map(area));
    if (largest <= most) continue;
    most = largest;
    best = halves;
  }
  return best;
}

/** Where a cut splits a panel: at an x, or at a y. */
interface Cut {
  readonly isAcrossX: boolean;
  readonly at: number;
}

function cutsAlong({ minX, minY, maxX, maxY }: Box): readonly Cut[] {
  const across = [minX, maxX].map((at) => ({ isAcrossX: true, at }));
  return [...across, ...[minY, maxY].map((at) => ({ isAcrossX: false, at }))];
}

function split(panel: Box, { isAcrossX, at }: Cut): readonly [Box, Box] {
  return isAcrossX
    ? [
        { ...panel, maxX: at },
        { ...panel, minX: at },
      ]
    : [
        { ...panel, maxY: at },
        { ...panel, minY: at },
      ];
}

function isEmpty({ minX, minY, maxX, maxY }: Box): boolean {
  return minX >= maxX || minY >= maxY;
}

function area({ minX, minY, maxX, maxY }: Box): number {
  return (maxX - minX) * (maxY - minY);
}
