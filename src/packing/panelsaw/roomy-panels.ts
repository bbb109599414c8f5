// Chooses how a sheet is cut into clean panels, so that a box that can be cut from it has a panel that it fits.
// Idea: the usual panels do for most boxes. For one that fits none of them the sheet is cut so that a place where it could lie stays whole: a largest clean
//   rectangle, or the box itself in one of its corners. The panels of one first direction are changed, as long as whatever fitted before still fits.
// Source: our own.
// Cost: some ways to cut the sheet for each box that fits nowhere, of which there are hardly any; never more than a fixed number of ways.
// Degenerate cases: a box for which no way is found has no panel; without obstacles the sheet itself is the panel.
import { type Box, boxArea } from '../../geometry/box.ts';
import { COLUMN, type Direction, ROW } from './direction.ts';
import type { Panel } from './panels.ts';

/** The panels by the direction of the first cut. */
export type PanelLists = Readonly<Record<Direction, readonly Panel[]>>;

/** One of the ways that a kind of box may lie. */
export interface Lie {
  readonly width: number;
  readonly height: number;
}

/** How many of the largest clean rectangles are tried for a box. */
const MOST_PLACES = 6;
/** How many ways to cut a sheet are tried in all: there are jobs with hundreds of kinds that a sheet has no room for. */
const MOST_WAYS = 60;

/** `panelsWith` cuts the sheet so that a box stays whole; `places` are its largest clean rectangles, `kinds` the lies of each kind of box. */
export function roomyPanels(
  panelsWith: (direction: Direction, whole: Box | null) => readonly Panel[],
  places: readonly Box[],
  kinds: readonly (readonly Lie[])[],
): PanelLists {
  let lists: PanelLists = { [ROW]: panelsWith(ROW, null), [COLUMN]: panelsWith(COLUMN, null) };
  const roomy = places.toSorted((a, b) => boxArea(b) - boxArea(a));
  const fitted = kinds.filter((lies) => hasRoom(lists, lies));
  let ways = 0;
  const counted: typeof panelsWith = (direction, whole) =>
    ways++ < MOST_WAYS ? panelsWith(direction, whole) : lists[direction];
  for (const lies of kinds) {
    if (ways >= MOST_WAYS) break;
    if (hasRoom(lists, lies)) continue;
    const found = withRoom(counted, roomy, lists, [...fitted, lies]);
    if (found === null) continue;
    lists = found;
    fitted.push(lies);
  }
  return lists;
}

/** Other panels that have room for all the kinds, of which the last one has none so far; null where none are found. */
function withRoom(
  panelsWith: (direction: Direction, whole: Box | null) => readonly Panel[],
  places: readonly Box[],
  lists: PanelLists,
  kinds: readonly (readonly Lie[])[],
): PanelLists | null {
  for (const lie of kinds.at(-1)!) {
    const own = places.filter((place) => isRoomFor(lie, place)).slice(0, MOST_PLACES);
    for (const whole of own.flatMap((place) => [place, ...corners(lie, place)])) {
      for (const direction of [ROW, COLUMN] as const) {
        const other = { ...lists, [direction]: panelsWith(direction, whole) };
        if (kinds.every((lies) => hasRoom(other, lies))) return other;
      }
    }
  }
  return null;
}

function hasRoom(lists: PanelLists, lies: readonly Lie[]): boolean {
  return [...lists[ROW], ...lists[COLUMN]].some((panel) =>
    lies.some((lie) => isRoomFor(lie, panel)),
  );
}

export function isRoomFor({ width, height }: Lie, { minX, minY, maxX, maxY }: Box): boolean {
  return width <= maxX - minX && height <= maxY - minY;
}

/** The box in each corner of a place. */
function corners({ width, height }: Lie, { minX, minY, maxX, maxY }: Box): readonly Box[] {
  return [minX, maxX - width].flatMap((x) =>
    [minY, maxY - height].map((y) => ({ minX: x, minY: y, maxX: x + width, maxY: y + height })),
  );
}
