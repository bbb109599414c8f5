// Bounds from above how much area one small sheet can carry.
// Idea: on a small sheet, an offcut mostly, only a few pieces go together. Contents are tried in which every two pieces fit side by side or one above the other
//   and all together do not pass the area of the sheet; the largest of them is the bound.
// Source: none needed; depth-first search over sets, pruned by the area that is left.
// Where we are careful: two straight boxes that do not overlap are parted by a line along one axis; spacing is left out of that, which only weakens the bound.
// Cost: held to MOST_STEPS sets a sheet, then nothing is said. Meant for sheets that carry a handful of pieces.
// Degenerate cases: nothing fits: 0; bodies that are no rectangles, or may lie askew, could be anywhere: nothing is said.
import { type SheetStock, usableBox } from '../../model/stock.ts';
import type { Body, PackingTask } from '../task.ts';

const MOST_STEPS = 4000;

/** A kind of body that fits the sheet, with the area that one counts. */
interface Item {
  readonly area: number;
  readonly count: number;
  readonly boxes: readonly { readonly width: number; readonly height: number }[];
}

/** No contents of one sheet of stock `index` count more than this, nor than `capacity`; `straight` has every body of the task, or the answer is `capacity`. */
export function mostOnOne(
  task: PackingTask,
  index: number,
  straight: readonly { readonly body: Body; readonly count: number; readonly area: bigint }[],
  capacity: bigint,
): bigint {
  const bodies = straight.reduce((sum, { count }) => sum + count, 0);
  if (bodies < task.bodies.length) return capacity;
  const items = itemsOn(task.stocks[index]!, index, straight);
  const { minX, minY, maxX, maxY } = usableBox(task.stocks[index]!);
  const search: Search = {
    items,
    mayPair: (a, b) => fitTogether(items[a]!, items[b]!, maxX - minX, maxY - minY),
    capacity: Number(capacity),
    rest: items.map((_, kind) =>
      items.slice(kind).reduce((sum, { area, count }) => sum + area * count, 0),
    ),
    steps: 0,
    most: 0,
  };
  extend(search, 0, [], 0);
  return search.steps > MOST_STEPS ? capacity : BigInt(search.most);
}

function itemsOn(
  stock: SheetStock,
  index: number,
  straight: readonly { readonly body: Body; readonly count: number; readonly area: bigint }[],
): readonly Item[] {
  const { minX, minY, maxX, maxY } = usableBox(stock);
  return straight
    .map(({ body, count, area }) => ({
      area: Number(area),
      count,
      boxes: body.orientations.filter(
        ({ width, height, allowedOn }) =>
          allowedOn[index] === true && width <= maxX - minX && height <= maxY - minY,
      ),
    }))
    .filter(({ boxes }) => boxes.length > 0)
    .sort((a, b) => b.area - a.area);
}

function fitTogether(a: Item, b: Item, length: number, width: number): boolean {
  return a.boxes.some((one) =>
    b.boxes.some(
      (other) => one.width + other.width <= length || one.height + other.height <= width,
    ),
  );
}

interface Search {
  readonly items: readonly Item[];
  readonly mayPair: (a: number, b: number) => boolean;
  readonly capacity: number;
  /** For each kind the area of all pieces of it and of the kinds after it. */
  readonly rest: readonly number[];
  steps: number;
  most: number;
}

/** Adds one more piece of kind `from` or a later one to the chosen kinds, in every way. */
function extend(search: Search, from: number, chosen: readonly number[], area: number): void {
  const { items, mayPair, capacity } = search;
  for (let kind = from; kind < items.length; kind++) {
    if (search.steps++ > MOST_STEPS || search.most === capacity) return;
    const item = items[kind]!;
    if (area + search.rest[kind]! <= search.most) return;
    if (area + item.area > capacity) continue;
    const taken = chosen.filter((each) => each === kind).length;
    if (taken === item.count || !chosen.every((each) => mayPair(each, kind))) continue;
    search.most = Math.max(search.most, area + item.area);
    extend(search, kind, [...chosen, kind], area + item.area);
  }
}
