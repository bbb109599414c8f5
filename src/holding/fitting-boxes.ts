/**
 * Where a box of a given size fits inside a region, along the axes, clear of every edge.
 *
 * The region is shrunk by the clearance, and the places of a grid over what is left are tried, from side to side and
 * from end to end. Cost: one shrinking, and one difference of polygons for each of the 121 places.
 * Degenerate: a region that is smaller than the box has no place; a grid can miss a place that is just large enough.
 */
import { regionArea } from '../geometry/area.ts';
import { subtract } from '../geometry/boolean.ts';
import { type Box, boxOf } from '../geometry/box.ts';
import { offsetRegion } from '../geometry/offset.ts';
import { boxRegion, type Region } from '../geometry/shape.ts';

/** Places along each side of the region. */
const PLACES = 11;

/** All lengths in base lengths; row by row. */
export function fittingBoxes(
  region: Region,
  size: { readonly length: number; readonly width: number },
  clear: number,
): Box[] {
  const inside = offsetRegion(region, -clear, 'mitre');
  const box = boxOf(inside.flatMap(({ outer }) => outer));
  const [roomX, roomY] = [box.maxX - box.minX - size.length, box.maxY - box.minY - size.width];
  if (inside.length === 0 || roomX < 0 || roomY < 0) return [];
  const places: Box[] = [];
  for (let row = 0; row < PLACES; row++) {
    for (let column = 0; column < PLACES; column++) {
      const minX = box.minX + Math.round((roomX * column) / (PLACES - 1));
      const minY = box.minY + Math.round((roomY * row) / (PLACES - 1));
      const place = { minX, minY, maxX: minX + size.length, maxY: minY + size.width };
      if (liesIn(place, inside)) places.push(place);
    }
  }
  return places;
}

function liesIn(box: Box, inside: readonly Region[]): boolean {
  return subtract([boxRegion(box)], inside).every((left) => regionArea(left) === 0);
}
