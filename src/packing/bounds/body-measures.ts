import { regionArea, ringLength } from '../../geometry/area.ts';
import { assert } from '../../geometry/assert.ts';
import { CHECKING_CHORD_ERROR, flattenShape, ROUNDING_SHORTFALL } from '../../geometry/flatten.ts';
import type { Part } from '../../model/part.ts';
import { type SheetStock, usableBox } from '../../model/stock.ts';
import type { Body, PackingTask } from '../task.ts';

/** The part that a piece is a copy of. */
export function partOfPiece({ job }: PackingTask, piece: number): Part {
  const part = job.parts[job.pieces[piece]?.part ?? -1];
  assert(part !== undefined, `piece ${piece} has no part`);
  return part;
}

/** Whether some allowed orientation of the body stays inside the trimmed edges of an empty sheet; keep-outs are not looked at. */
export function fitsStock(body: Body, stock: SheetStock, index: number): boolean {
  const { minX, minY, maxX, maxY } = usableBox(stock);
  return body.orientations.some(
    ({ width, height, allowedOn }) =>
      allowedOn[index] === true && width <= maxX - minX && height <= maxY - minY,
  );
}

/** Whether the part is just its box, with no cut-out that other pieces may lie in. */
export function isSolidRectangle({ rectangular, nestInside, shape }: Part): boolean {
  return rectangular && !(nestInside && shape.inner.length > 0);
}

/** Area of a piece's material, never over-estimated; a cut-out counts as material unless other pieces may lie in it. */
export function leastArea(part: Part): number {
  const { shape, nestInside, width, height } = part;
  if (isSolidRectangle(part)) return width * height;
  const open = nestInside && shape.inner.length > 0;
  const region = flattenShape(
    open ? shape : { outer: shape.outer, inner: [] },
    'inside',
    CHECKING_CHORD_ERROR,
  );
  // Rounding moves each ring outwards by one shortfall at most; the band that this adds is at most so wide, corners included.
  const rings = [region.outer, ...region.holes];
  const band = rings.reduce((sum, ring) => sum + ringLength(ring) + 4, 0) * ROUNDING_SHORTFALL;
  return Math.max(0, Math.floor(regionArea(region) - band));
}
