import { DRAWING_CHORD_ERROR, flattenShape } from '../../src/geometry/flatten.ts';
import { placeShape } from '../../src/geometry/pose.ts';
import type { Ring } from '../../src/geometry/shape.ts';
import type { Job } from '../../src/model/job.ts';
import type { Layout, Placement, SheetLayout } from '../../src/model/layout.ts';
import { toMm } from '../../src/model/units.ts';
import { complaintsAbout, type PlacedOutline, type PlacedSheet } from '../helpers/second-check.ts';

/** What the second check says about a layout, whose outlines it sees as plan.json has them. */
export function secondComplaints(job: Job, layout: Layout): string[] {
  return layout.sheets.flatMap((sheet) =>
    complaintsAbout(placedSheet(job, layout.material, sheet), toMm(job.machine.spacing)),
  );
}

function placedSheet(job: Job, material: number, sheet: SheetLayout): PlacedSheet {
  const stock = job.materials[material]!.sheets[sheet.stock]!;
  const { left, right, bottom, top } = stock.trim;
  return {
    length: toMm(stock.length),
    width: toMm(stock.width),
    boundary: stock.boundary && ringInMm(stock.boundary),
    trim: { left: toMm(left), right: toMm(right), bottom: toMm(bottom), top: toMm(top) },
    keepOuts: stock.keepOuts.map(({ box: { minX, minY, maxX, maxY } }) => ({
      x: toMm(minX),
      y: toMm(minY),
      length: toMm(maxX - minX),
      width: toMm(maxY - minY),
    })),
    placements: sheet.placements.map((placement) => placedOutline(job, placement)),
  };
}

export function placedOutline(job: Job, placement: Placement): PlacedOutline {
  const part = job.parts[job.pieces[placement.piece]!.part]!;
  const shape = placeShape(part.shape, placement);
  const { outer, holes } = flattenShape(shape, 'curve', DRAWING_CHORD_ERROR);
  return { outline: ringInMm(outer), cutOuts: part.nestInside ? holes.map(ringInMm) : [] };
}

function ringInMm(ring: Ring): readonly (readonly [number, number])[] {
  return ring.map(({ x, y }) => [toMm(x), toMm(y)]);
}
