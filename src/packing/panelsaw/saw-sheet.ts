import { assert } from '../../geometry/assert.ts';
import { type Box, moveBox } from '../../geometry/box.ts';
import { boxOfShape, placeShape } from '../../geometry/pose.ts';
import type { PanelSaw } from '../../model/machine.ts';
import { wholeSheet } from '../../model/saw-panels.ts';
import { usableBox } from '../../model/stock.ts';
import type { PackedSheet, PackingTask, Spot } from '../task.ts';
import { type CutSequence, cutSequence } from './cut-sequence.ts';

export interface SawnSheet extends CutSequence {
  /** As given, but for gaps that were closed up. */
  readonly spots: readonly Spot[];
}

/**
 * How the saw parts a sheet that was laid out for it; keep-outs are cut through only where nothing else parts the pieces. Pieces move up to one another on
 * a whole sheet without keep-outs and matched sets.
 */
export function sawSheet(
  task: PackingTask,
  saw: PanelSaw,
  { stock, spots }: PackedSheet,
): SawnSheet {
  const own = task.stocks[stock]!;
  const content = {
    sheet: wholeSheet(own),
    usable: usableBox(own),
    pieces: spots.flatMap((spot) => pieceBoxes(task, spot)),
    keepOuts: own.keepOuts.map(({ box }) => box),
    isFixed:
      own.keepOuts.length > 0 || own.boundary !== null || spots.some((spot) => isSet(task, spot)),
  };
  const found = cutSequence(content, saw) ?? cutSequence({ ...content, keepOuts: [] }, saw);
  assert(found !== null, 'a saw can part what was laid out for it');
  const { pieces } = found;
  const moved = content.isFixed
    ? spots
    : spots.map((spot, i) => ({ ...spot, x: pieces[i]!.minX, y: pieces[i]!.minY }));
  return { ...found, spots: moved };
}

function isSet({ bodies }: PackingTask, { body }: Spot): boolean {
  return bodies[body]!.pieces.length > 1;
}

function pieceBoxes({ job, bodies }: PackingTask, { body, orientation, x, y }: Spot): Box[] {
  const { width, height, placements } = bodies[body]!.orientations[orientation]!;
  if (placements.length === 1) return [{ minX: x, minY: y, maxX: x + width, maxY: y + height }];
  return placements.map((placement) => {
    const { shape } = job.parts[job.pieces[placement.piece]!.part]!;
    return moveBox(boxOfShape(placeShape(shape, placement)), x, y);
  });
}
