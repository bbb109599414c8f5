import { type Box, growBox, moveBox } from '../geometry/box.ts';
import { largestEmptyRectangle } from '../geometry/empty-rectangle.ts';
import { offcutWorth } from '../model/offcut-rule.ts';
import { closedBoxes, usableBox } from '../model/stock.ts';
import { sawSheet } from './panelsaw/saw-sheet.ts';
import type { PackedSheet, PackingTask } from './task.ts';

/**
 * How useful what is left of a sheet is by the rule of the file, in squared base lengths: the rectangle that is worth most inside its trimmed edges, with no keep-out on it and one spacing
 * away from every piece. Pieces count as their boxes. At a saw it is the panel that is worth most of those that fall off.
 */
export function leftoverValue(task: PackingTask, sheet: PackedSheet): number {
  const stock = task.stocks[sheet.stock];
  if (stock === undefined) return 0;
  const { machine, offcuts } = task.job;
  const usable = usableBox(stock);
  const worthOf = (box: Box) => offcutWorth(box, usable, offcuts);
  if (machine.kind === 'panel-saw')
    return Math.max(0, ...sawSheet(task, machine, sheet).leftovers.map(worthOf));
  const pieces = sheet.spots.map(({ body, orientation, x, y }): Box => {
    const lie = task.bodies[body]?.orientations[orientation];
    const box = { minX: 0, minY: 0, maxX: lie?.width ?? 0, maxY: lie?.height ?? 0 };
    return growBox(moveBox(box, x, y), task.spacing);
  });
  const closed = [...closedBoxes(stock), ...stock.keepOuts.map(({ box }) => box)];
  const left = largestEmptyRectangle(usable, [...closed, ...pieces], worthOf);
  return left === null ? 0 : worthOf(left);
}
