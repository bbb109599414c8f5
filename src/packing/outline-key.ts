import type { Point } from '../geometry/point.ts';
import { type Pose, placeContour } from '../geometry/pose.ts';
import type { Contour } from '../geometry/shape.ts';
import type { Part } from '../model/part.ts';

/**
 * A text that two placed parts share where packing cannot tell them apart: the outer contour as it lies when the part's origin is at `at`,
 * and the cut-outs only where pieces may be nested in them. A disc is the same at every turn, though its corners are not.
 */
export function outlineKey(part: Part, pose: Pose, at: Point): string {
  if (isDisc(part)) return 'disc';
  const { outer, inner } = part.shape;
  const nestable = part.nestInside && inner.length > 0;
  const placed = (contour: Contour) => contourKey(placeContour(contour, { ...pose, ...at }));
  const holes = nestable ? inner.map(placed).sort() : [];
  return [placed(outer), ...holes].join('/');
}

/** Whether the part is the same at every turn: a full circle, with no cut-out that pieces may be nested in. */
export function isDisc({ shape, nestInside }: Part): boolean {
  return isCircle(shape.outer) && !(nestInside && shape.inner.length > 0);
}

/** The corners in order, from the lowest-left one on, so that the start of the list does not matter. */
function contourKey(contour: Contour): string {
  const words = contour.map(({ x, y, via }) => (via ? `${x},${y},${via.x},${via.y}` : `${x},${y}`));
  let first = 0;
  contour.forEach((corner, i) => {
    const best = contour[first];
    if (best && (corner.y < best.y || (corner.y === best.y && corner.x < best.x))) first = i;
  });
  return [...words.slice(first), ...words.slice(0, first)].join(' ');
}

/** Whether two half-circle arcs make up the contour; exact, in coordinates doubled and centred. */
function isCircle(contour: Contour): boolean {
  const [a, b] = contour;
  if (contour.length !== 2 || !a?.via || !b?.via) return false;
  const centre = { x: a.x + b.x, y: a.y + b.y };
  const opposite = a.via.x + b.via.x === centre.x && a.via.y + b.via.y === centre.y;
  const radius2 = ({ x, y }: Point) =>
    (2 * x - centre.x) * (2 * x - centre.x) + (2 * y - centre.y) * (2 * y - centre.y);
  return opposite && radius2(a) === radius2(a.via);
}
