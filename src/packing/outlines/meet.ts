import { boxOf } from '../../geometry/box.ts';
import type { Form } from './forms.ts';

/**
 * The convex parts of a form in one flat list: their number; then for each its box (least and greatest x, then y), the number of its corners,
 * and x and y of each corner, counter-clockwise, the first one again at the end.
 */
export type FlatParts = Float64Array;

const HEAD = 5;

export function flatParts({ parts }: Form): FlatParts {
  const flat = [parts.length];
  for (const ring of parts) {
    const { minX, maxX, minY, maxY } = boxOf(ring);
    flat.push(minX, maxX, minY, maxY, ring.length);
    for (const { x, y } of [...ring, ...ring.slice(0, 1)]) flat.push(x, y);
  }
  return Float64Array.from(flat);
}

/**
 * Whether two forms overlap, (x, y) being the first one's origin seen from the second one's: the same answer as their sums give (see depth.ts),
 * from the parts themselves.
 *
 * Idea: two convex parts do not overlap just when all of one lies on or beyond the line of a side of the other. Nothing has to be made beforehand,
 * so this is for pairs of forms that meet too seldom to be worth their sums. All numbers are whole, so touching counts as no overlap, exactly.
 * Source: the separating axes of Gottschalk, Lin & Manocha 1996, "OBBTree: a hierarchical structure for rapid interference detection", section 5.
 * Cost: sides times corners for parts whose boxes overlap, but for a side that does not part them only as far as the first corner inside.
 */
export function doMeet(first: FlatParts, second: FlatParts, x: number, y: number): boolean {
  let p = 1;
  for (let i = first[0] as number; i > 0; i--) {
    const minX = (first[p] as number) + x;
    const maxX = (first[p + 1] as number) + x;
    const minY = (first[p + 2] as number) + y;
    const maxY = (first[p + 3] as number) + y;
    let q = 1;
    for (let k = second[0] as number; k > 0; k--) {
      const next = q + HEAD + 2 * (second[q + 4] as number) + 2;
      if (
        minX < (second[q + 1] as number) &&
        maxX > (second[q] as number) &&
        minY < (second[q + 3] as number) &&
        maxY > (second[q + 2] as number) &&
        !isParted(first, p, second, q, x, y) &&
        !isParted(second, q, first, p, -x, -y)
      )
        return true;
      q = next;
    }
    p += HEAD + 2 * (first[p + 4] as number) + 2;
  }
  return false;
}

/** Whether a side of one part, moved by (x, y), has all of the other part on or beyond its line. */
function isParted(
  own: FlatParts,
  at: number,
  other: FlatParts,
  otherAt: number,
  x: number,
  y: number,
): boolean {
  const end = at + HEAD + 2 * (own[at + 4] as number);
  const otherEnd = otherAt + HEAD + 2 * (other[otherAt + 4] as number);
  for (let p = at + HEAD; p < end; p += 2) {
    const fromX = own[p] as number;
    const fromY = own[p + 1] as number;
    const dx = (own[p + 2] as number) - fromX;
    const dy = (own[p + 3] as number) - fromY;
    const startX = fromX + x;
    const startY = fromY + y;
    let q = otherAt + HEAD;
    while (
      q < otherEnd &&
      dx * ((other[q + 1] as number) - startY) <= dy * ((other[q] as number) - startX)
    )
      q += 2;
    if (q === otherEnd) return true;
  }
  return false;
}
