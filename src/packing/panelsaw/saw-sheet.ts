import { assert } from '../../geometry/assert.ts';
import { type Box, moveBox } from '../../geometry/box.ts';
import { boxOfShape, placeShape } from '../../geometry/pose.ts';
import type { PanelSaw } from '../../model/machine.ts';
import { usableBox } from '../../model/stock.ts';
import type { PackedSheet, PackingTask, Spot } from '../task.ts';
import { type CutSequence, cutSequence } from './cut-sequence.ts';

/** How the saw parts a sheet that was laid out for it; keep-outs are cut through only where nothing else parts the pieces. */
export function sawSheet(
  task: PackingTask,
  saw: PanelSaw,
  { stock, spots }: PackedSheet,
): CutSequence {
  const own = task.stocks[stock]!;
  const { length, width } = own;
  const content = {
    sheet: { minX: 0, minY: 0, maxX: length, maxY: width },
    usable: usableBox(own),
    pieces: spots.flatMap((spot) => pieceBoxes(task, spot)),
    keepOuts: own.keepOuts.map(({ box }) => box),
  };
  const found = cutSequence(content, saw) ?? cutSequence({ ...content, keepOuts: [] }, saw);
  assert(found !== null, 'a saw can part what was laid out for it');
  return found;
}

/** The largest panel that is left over, in squared base lengths. */
export function largestPanel(task: PackingTask, saw: PanelSaw, sheet: PackedSheet): number {
  return sawSheet(task, saw, sheet).leftovers.reduce(
    (most, { minX, minY, maxX, maxY }) => Math.max(most, (maxX - minX) * (maxY - minY)),
    0,
  );
}

function pieceBoxes({ job, bodies }: PackingTask, { body, orientation, x, y }: Spot): Box[] {
  const { width, height, placements } = bodies[body]!.orientations[orientation]!;
  if (placements.length === 1) return [{ minX: x, minY: y, maxX: x + width, maxY: y + height }];
  return placements.map((placement) => {
    const { shape } = job.parts[job.pieces[placement.piece]!.part]!;
    return moveBox(boxOfShape(placeShape(shape, placement)), x, y);
  });
}
