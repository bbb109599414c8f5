import { boxOfShape, placeShape } from '../geometry/pose.ts';
import { stockTitle } from '../model/format.ts';
import type { Job } from '../model/job.ts';
import type { Layout, Unplaced } from '../model/layout.ts';
import type { Machine } from '../model/machine.ts';
import type { Part } from '../model/part.ts';
import { type SheetStock, usableBox } from '../model/stock.ts';
import { type Fault, pieceName } from './fault.ts';
import { allowsTurn, followsGrain } from './orientations.ts';

/**
 * No piece is left out while an empty sheet that would take it could still be used.
 * Only the plain case is decided, where comparing boxes is exact: a straight-sided piece on its own, at a quarter turn, on a sheet
 * without keep-outs and of no odd shape, that is not too long for a saw.
 */
export function checkUnplaced(job: Job, layout: Layout): Fault[] {
  const stocks = job.materials[layout.material]?.sheets ?? [];
  return layout.unplaced.flatMap((left) => {
    const piece = job.pieces[left.piece];
    const part = piece && job.parts[piece.part];
    if (!part || piece.set !== null) return [];
    const stock = stocks.find((stock) => isLeft(stock, left, layout) && takes(job, stock, part));
    if (!stock) return [];
    const message = `${pieceName(job, left.piece)} is left out ('${left.why}'), but an empty sheet of ${stockTitle(stock.name, job.unit)} takes it`;
    return [{ code: 'left-out', sheet: null, piece: left.piece, other: null, message }];
  });
}

/** Whether a sheet of this stock speaks against the reason given: any sheet there is against 'no-room', an unused one against 'no-stock'. */
function isLeft(stock: SheetStock, { why }: Unplaced, layout: Layout): boolean {
  if (stock.onHand === null) return true;
  const taken = layout.sheets.filter((sheet) => sheet.stock === stock.index).length;
  return stock.onHand > (why === 'no-room' ? 0 : taken);
}

function takes({ machine }: Job, stock: SheetStock, part: Part): boolean {
  const usable = usableBox(stock);
  return (
    stock.keepOuts.length === 0 &&
    stock.boundary === null &&
    isInReach(machine, stock) &&
    part.shape.outer.every(({ via }) => via === null) &&
    [0, 90, 180, 270].some((turn) => {
      const { grainAxis } = stock;
      if (!allowsTurn(part, grainAxis, turn) || !followsGrain(part.grain, grainAxis, turn))
        return false;
      const box = boxOfShape(placeShape(part.shape, { x: 0, y: 0, turn, mirrored: false }));
      return (
        box.maxX - box.minX <= usable.maxX - usable.minX &&
        box.maxY - box.minY <= usable.maxY - usable.minY
      );
    })
  );
}

function isInReach(machine: Machine, { length, width }: SheetStock): boolean {
  if (machine.kind === 'router') return true;
  const { longestRip, longestCrosscut } = machine;
  return length <= (longestRip ?? length) && width <= (longestCrosscut ?? width);
}
