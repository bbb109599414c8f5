// Measures pockets: the way of the cutter that clears them, and the wood that they take out.
// Idea: the middle of the cutter may go where the pocket, less half the cutter all round, is; it covers that in ways side by side, half a cutter apart, and goes round its edge
//   once. The wood is the area of each depth times the depth, where pockets lie over one another the deepest.
// Source: half a cutter from way to way is common practice, no source.
// Where we differ: plunges and ways between the rows are left out, as they are of contours; corners that the round cutter leaves stay.
// Cost: an offset a pocket.
// Degenerate cases: a groove that is no wider than the cutter is one way along it, also one that is narrower and takes another cutter.
import { regionArea, ringLength } from '../geometry/area.ts';
import { DRAWING_CHORD_ERROR, flattenContour, flattenShape } from '../geometry/flatten.ts';
import { offsetRegion } from '../geometry/offset.ts';
import type { Contour, Region } from '../geometry/shape.ts';
import { terraceArea, terracesOf } from '../geometry/terraces.ts';
import { pocketPasses, type Router } from '../model/machine.ts';
import type { Part } from '../model/part.ts';
import { toMm, toMm2 } from '../model/units.ts';

/** From one way to the next, in diameters of the cutter. */
const STEP = 0.5;

/** The way that clears all pockets of a piece, times the passes down to their depths. */
export function pocketRunMm({ pockets }: Part, machine: Router): number {
  return pockets.reduce(
    (sum, { contour, depth }) =>
      sum + pocketPasses(machine, depth) * wayMm(contour, machine.cutter.diameter),
    0,
  );
}

/** What the pockets of a piece take out of it. */
export function pocketVolumeMm3({ pockets, shape }: Part): number {
  if (pockets.length === 0) return 0;
  const sunk = pockets.map(({ contour, depth }) => ({ region: regionOf(contour), depth }));
  const ground = flattenShape(shape, 'curve', DRAWING_CHORD_ERROR);
  return terracesOf(sunk, ground).reduce(
    (sum, terrace) => sum + toMm2(terraceArea(terrace)) * toMm(terrace.depth),
    0,
  );
}

function wayMm(contour: Contour, cutter: number): number {
  const pocket = regionOf(contour);
  const along = toMm(regionArea(pocket) / cutter);
  const middle = offsetRegion(pocket, -cutter / 2, 'mitre');
  const rows = middle.map(regionArea).reduce((a, b) => a + b, 0) / (STEP * cutter);
  const round = middle.reduce((sum, { outer }) => sum + ringLength(outer), 0);
  return Math.max(along, toMm(rows + round));
}

function regionOf(contour: Contour): Region {
  return { outer: flattenContour(contour, 'curve', DRAWING_CHORD_ERROR), holes: [] };
}
