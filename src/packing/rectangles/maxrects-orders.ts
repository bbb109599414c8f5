// Packs bodies as boxes by the maximal-rectangles library, in several orders.
// Idea: the library puts each box into the first sheet that takes it; it is asked once for each sort key and each of its two position rules.
// Source: the package maxrects-packer, which follows Jylänki 2010, "A thousand ways to pack the bin".
// Where we are careful: the library knows one rectangular sheet size and no keep-outs, so it is asked for nothing else; it would set a box aside that is longer than the sheet as given,
//   even if it fits turned, so each box is given in a lie that fits; its own sheet growing is switched off; spacing is in the boxes and the sheet already.
// Cost: boxes times sheets times free rectangles; meant for some hundreds of boxes.
// Degenerate cases: several stocks, keep-outs, odd-shaped sheets, a count of sheets on hand: nothing is placed, and another strategy has to.
import { MaxRectsPacker, PACKING_LOGIC, Rectangle } from 'maxrects-packer';
import type { Candidate, PackedSheet, PackingTask, Spot, Strategy } from '../task.ts';
import { type BoxStock, type BoxTask, boxTask, NO_BOX } from './box-task.ts';
import { sortKeysOf } from './engine.ts';

/** More boxes than this would take the library too long. */
const MOST_BOXES = 400;

/** Whether the library can be asked at all. */
export function suitsMaxrects({ stocks, bodies }: PackingTask): boolean {
  const [stock] = stocks;
  return (
    stocks.length === 1 &&
    stock?.onHand === null &&
    stock.keepOuts.length === 0 &&
    stock.boundary === null &&
    bodies.length <= MOST_BOXES
  );
}

export const packMaxrectsOrders: Strategy = (task, { budget, atLeast, found }) => {
  const boxes = boxTask(task);
  const stock = boxes.stocks[0] as BoxStock;
  let best: Candidate = { sheets: [], unplaced: task.bodies.map(({ index }) => index) };
  for (const key of sortKeysOf(boxes)) {
    for (const logic of [PACKING_LOGIC.MAX_AREA, PACKING_LOGIC.MAX_EDGE]) {
      if (best.unplaced.length === 0 && best.sheets.length <= atLeast) return best;
      const candidate = packInOrder(boxes, stock, key, logic);
      const better = best.sheets.length === 0 || candidate.sheets.length < best.sheets.length;
      if (better) {
        best = candidate;
        found(best);
      }
      if (!budget.spend(task.bodies.length * (candidate.sheets.length + 1) * 8)) return best;
    }
  }
  return best;
};

function packInOrder(
  task: BoxTask,
  stock: BoxStock,
  key: Float64Array,
  logic: PACKING_LOGIC,
): Candidate {
  const { width, height, boxWidth, boxHeight } = stock;
  const packer = new MaxRectsPacker(width, height, 0, {
    smart: false,
    pot: false,
    square: false,
    logic,
  });
  const kinds = [...task.bodies.keys()].filter((kind) => boxWidth[2 * kind] !== NO_BOX);
  kinds.sort((a, b) => key[b]! - key[a]! || a - b);
  for (const kind of kinds) {
    const w = boxWidth[2 * kind]!;
    const h = boxHeight[2 * kind]!;
    const turns = boxWidth[2 * kind + 1] === h && boxHeight[2 * kind + 1] === w;
    for (const body of task.bodies[kind]!) {
      const box = new Rectangle(w, h, 0, 0, false, turns);
      box.data = { body, kind };
      packer.add(box);
    }
  }
  const sheets = packer.bins.map(({ rects }): PackedSheet => {
    const spots = rects.map(({ x, y, rot, data }): Spot => {
      const orientation = stock.orientation[2 * data.kind + (rot ? 1 : 0)]!;
      return { body: data.body, orientation, x: stock.originX + x, y: stock.originY + y };
    });
    return { stock: 0, spots };
  });
  const placed = new Set(sheets.flatMap(({ spots }) => spots.map(({ body }) => body)));
  const unplaced = task.task.bodies.flatMap(({ index }) => (placed.has(index) ? [] : [index]));
  return { sheets, unplaced };
}
