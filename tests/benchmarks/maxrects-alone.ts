import { MaxRectsPacker, PACKING_LOGIC, Rectangle } from 'maxrects-packer';

interface Size {
  readonly width: number;
  readonly height: number;
}

/** The orders of src/packing/rectangles/engine.ts, largest first. */
const ORDERS: readonly ((size: Size) => number)[] = [
  ({ width, height }) => width * height,
  ({ width, height }) => Math.max(width, height),
  ({ width }) => width,
  ({ height }) => height,
  ({ width, height }) => width + height,
  ({ width, height }) => Math.min(width, height),
];

const LOGICS = [PACKING_LOGIC.MAX_AREA, PACKING_LOGIC.MAX_EDGE];

/** The fewest sheets that the maximal-rectangles library needs by itself, over all its position rules and all orders. Each piece fits the sheet as it is given. */
export function maxrectsAlone(sheet: Size, pieces: readonly Size[], mayTurn: boolean): number {
  const counts = ORDERS.flatMap((order) => {
    const sorted = [...pieces].sort((a, b) => order(b) - order(a));
    return LOGICS.map((logic) => {
      const options = { smart: false, pot: false, square: false, logic };
      const packer = new MaxRectsPacker(sheet.width, sheet.height, 0, options);
      for (const { width, height } of sorted)
        packer.add(new Rectangle(width, height, 0, 0, false, mayTurn));
      return packer.bins.length;
    });
  });
  return Math.min(...counts);
}
