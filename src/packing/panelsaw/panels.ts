// Cuts what no piece may touch out of a sheet, so that only clean panels are left.
// Idea: cuts along the edges of the obstacles split the sheet, each time the one that leaves the largest clean panel, until every panel is clean or closed; none
//   goes through a box that is to stay whole, and some run along its edges.
// Source: common practice at the saw, no source.
// Cost: cubic in the obstacles, of which a sheet has few.
// Degenerate cases: no obstacle: the sheet itself; obstacles all over: no panel. Where stages are counted a strip that has an obstacle on it is cut the other
//   way, which is a stage deeper, as long as there are stages.
import {
  type Box,
  boxArea,
  boxContains,
  boxesOverlap,
  isEmptyBox,
  sameBox,
} from '../../geometry/box.ts';
import { COLUMN, type Direction, ROW } from './direction.ts';

/** A clean part of a sheet: how its own first cuts run, and how many changes of direction were spent on cutting it out. */
export interface Panel extends Box {
  readonly direction: Direction;
  readonly depth: number;
  /** Whether its first cuts may run the other way as well: not where that would be one more change. */
  readonly mayTurn: boolean;
}

/** How the first cut runs, between the children of a row or of a column; how many stages there are, null where they are not counted; the longest cuts along x and along y; and a box that is to stay whole. */
export interface PanelLimits {
  readonly first: Direction;
  readonly stages: number | null;
  readonly alongX: number;
  readonly alongY: number;
  readonly whole: Box | null;
}

export function panelsOf(
  sheet: Box,
  obstacles: readonly Box[],
  { first, stages, alongX, alongY, whole }: PanelLimits,
): readonly Panel[] {
  const mayCut: Allowed = (cut, panel) =>
    (cut.isAcrossX ? panel.maxY - panel.minY <= alongY : panel.maxX - panel.minX <= alongX) &&
    !(whole !== null && isThrough(cut, panel, whole));
  const inside = obstacles.filter((box) => boxesOverlap(box, sheet));
  const open = { direction: first, depth: 0, mayTurn: true };
  if (inside.length === 0) return isEmptyBox(sheet) ? [] : [{ ...sheet, ...open }];
  if (stages !== null) {
    const top = { direction: first, depth: 0 };
    return stagedPanels(sheet, inside, top, { stages, mayCut, whole });
  }
  const isTold: Allowed = (cut, panel) => isAcross(cut, first) && mayCut(cut, panel);
  const told = bestSplit(sheet, inside, isTold, whole);
  if (told === null && whole !== null) return [];
  const clean = (told ?? [sheet]).flatMap((half) => splitAll(half, inside, mayCut, whole).clean);
  return clean.map((box) => ({ ...box, ...open }));
}

function stagedPanels(
  panel: Box,
  obstacles: readonly Box[],
  { direction, depth }: Pick<Panel, 'direction' | 'depth'>,
  limits: Pick<PanelLimits, 'whole'> & { readonly stages: number; readonly mayCut: Allowed },
): readonly Panel[] {
  const { stages, mayCut, whole } = limits;
  if (depth === stages) return [];
  const { clean, closed } = splitAll(
    panel,
    obstacles,
    (cut, part) => isAcross(cut, direction) && mayCut(cut, part),
    whole,
  );
  const other = direction === ROW ? COLUMN : ROW;
  return [
    ...clean.map((box) => ({ ...box, direction, depth, mayTurn: false })),
    ...closed.flatMap((strip) =>
      stagedPanels(strip, obstacles, { direction: other, depth: depth + 1 }, limits),
    ),
  ];
}

/** Whether a cut parts the children of a row or column. */
function isAcross({ isAcrossX }: Cut, direction: Direction): boolean {
  return isAcrossX === (direction === ROW);
}

/** What the allowed cuts make of a panel: clean parts, and those that have an obstacle and cannot be split further. */
interface Parts {
  readonly clean: readonly Box[];
  readonly closed: readonly Box[];
}

function splitAll(
  panel: Box,
  obstacles: readonly Box[],
  isAllowed: Allowed,
  whole: Box | null,
): Parts {
  const inside = obstaclesOf(panel, obstacles);
  if (inside.length === 0) return { clean: isEmptyBox(panel) ? [] : [panel], closed: [] };
  const halves = bestSplit(panel, inside, isAllowed, whole);
  if (halves === null) return { clean: [], closed: [panel] };
  const parts = halves.map((half) => splitAll(half, inside, isAllowed, whole));
  return {
    clean: parts.flatMap(({ clean }) => clean),
    closed: parts.flatMap(({ closed }) => closed),
  };
}

/** What of the obstacles is on a panel, without those that others cover there: of the stairs of a slanted edge a strip has only one or two left. */
function obstaclesOf(panel: Box, obstacles: readonly Box[]): readonly Box[] {
  const inside = obstacles
    .filter((box) => boxesOverlap(box, panel))
    .map((box) => intersection(box, panel));
  return inside.filter(
    (box, i) =>
      !inside.some(
        (other, j) => j !== i && boxContains(other, box) && !(i < j && sameBox(other, box)),
      ),
  );
}

function intersection(a: Box, b: Box): Box {
  return {
    minX: Math.max(a.minX, b.minX),
    minY: Math.max(a.minY, b.minY),
    maxX: Math.min(a.maxX, b.maxX),
    maxY: Math.min(a.maxY, b.maxY),
  };
}

/** The two halves of the split that leaves the largest clean one; null where no cut splits the panel. */
function bestSplit(
  panel: Box,
  obstacles: readonly Box[],
  isAllowed: Allowed,
  whole: Box | null,
): readonly Box[] | null {
  let best: readonly Box[] | null = null;
  let most = -1;
  for (const cut of cutsInside(panel, whole === null ? obstacles : [...obstacles, whole])) {
    if (!isAllowed(cut, panel)) continue;
    const halves = split(panel, cut);
    const clean = halves.filter((half) => !obstacles.some((box) => boxesOverlap(box, half)));
    const largest = Math.max(0, ...clean.map(boxArea));
    if (largest <= most) continue;
    most = largest;
    best = halves;
  }
  return best;
}

/** Whether a cut may split a panel. */
type Allowed = (cut: Cut, panel: Box) => boolean;

/** Where a cut splits a panel: at an x, or at a y. */
interface Cut {
  readonly isAcrossX: boolean;
  readonly at: number;
}

/** Whether a cut of a panel would go through a box. */
function isThrough({ isAcrossX, at }: Cut, panel: Box, box: Box): boolean {
  if (!boxesOverlap(panel, box)) return false;
  return isAcrossX ? box.minX < at && at < box.maxX : box.minY < at && at < box.maxY;
}

/** Along the edges of the boxes, each once: the stairs of a slanted edge share most of theirs, or have them at the edge of the panel. */
function cutsInside(panel: Box, boxes: readonly Box[]): readonly Cut[] {
  const [seenX, seenY] = [new Set<number>(), new Set<number>()];
  const cuts: Cut[] = [];
  const add = (at: number, isAcrossX: boolean) => {
    const seen = isAcrossX ? seenX : seenY;
    const [low, high] = isAcrossX ? [panel.minX, panel.maxX] : [panel.minY, panel.maxY];
    if (low < at && at < high && !seen.has(at)) cuts.push({ isAcrossX, at });
    seen.add(at);
  };
  for (const { minX, maxX, minY, maxY } of boxes) {
    for (const at of [minX, maxX]) add(at, true);
    for (const at of [minY, maxY]) add(at, false);
  }
  return cuts;
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
