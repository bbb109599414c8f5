import { type Box, boxArea, growBox, moveBox } from '../geometry/box.ts';
import { largestEmptyRectangle } from '../geometry/empty-rectangle.ts';
import { closedBoxes, usableBox } from '../model/stock.ts';
import { largestPanel } from './panelsaw/saw-sheet.ts';
import type { PackedSheet, PackingTask } from './task.ts';

/**
 * How useful what is left of a sheet is: the area of the largest rectangle inside its trimmed edges that no keep-out enters and that is one spacing away from every
 * piece, in squared base lengths. Pieces count as their boxes. At a saw it is the largest panel that falls off.
 */
export function leftoverValue(task: PackingTask, sheet: PackedSheet): number {
  const stock = task.stocks[sheet.stock];
  if (stock === undefined) return 0;
  const { machine } = task.job;
  if (machine.kind === 'panel-saw') return largestPanel(task, machine, sheet);
  const pieces = sheet.spots.map(({ body, orientation, x, y }): Box => {
    const lie = task.bodies[body]?.orientations[orientation];
    const box = { minX: 0, minY: 0, maxX: lie?.width ?? 0, maxY: lie?.height ?? 0 };
    return growBox(moveBox(box, x, y), task.spacing);
  });
  const closed = [...closedBoxes(stock), ...stock.keepOuts.map(({ box }) => box)];
  const left = largestEmptyRectangle(usableBox(stock), [...closed, ...pieces]);
  return left === null ? 0 : boxArea(left);
}
