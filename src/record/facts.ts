import { DRAWING_CHORD_ERROR, flattenContour } from '../geometry/flatten.ts';
import { placeContour, placePoint } from '../geometry/pose.ts';
import type { Job } from '../model/job.ts';
import type { Placement } from '../model/layout.ts';
import { cutWidth } from '../model/machine.ts';
import type { Sides } from '../model/part.ts';
import { type BoardStock, type SheetStock, sheetRing } from '../model/stock.ts';
import { toMm } from '../model/units.ts';

/** What a record has to say of the job itself, whatever its layout. */
export function headFacts(job: Job): object {
  const { machine, currency } = job;
  return {
    drawings: job.drawings.map(({ path, sha256 }) => ({ path, sha256 })),
    job: job.name,
    unit: job.unit,
    currency: currency.code,
    machine: { kind: machine.kind, cut: toMm(cutWidth(machine)), spacing: toMm(machine.spacing) },
  };
}

/** What a record has to say of a sheet of this stock. */
export function sheetFacts(stock: SheetStock): object {
  const { trim, grainAxis } = stock;
  return {
    length: toMm(stock.length),
    width: toMm(stock.width),
    boundary: sheetRing(stock).map(({ x, y }) => [toMm(x), toMm(y)]),
    trim: sidesInMm(trim),
    keepOuts: stock.keepOuts.map(({ box: { minX, minY, maxX, maxY }, why }) => ({
      x: toMm(minX),
      y: toMm(minY),
      length: toMm(maxX - minX),
      width: toMm(maxY - minY),
      why,
    })),
    grainDeg: grainAxis === null ? null : grainAxis === 'x' ? 0 : 90,
  };
}

function sidesInMm({ left, right, bottom, top }: Sides): object {
  return { left: toMm(left), right: toMm(right), bottom: toMm(bottom), top: toMm(top) };
}

/** What a record has to say of a board of this stock. */
export function boardFacts({ length, endTrim, defects }: BoardStock): object {
  return {
    length: toMm(length),
    trim: toMm(endTrim),
    defects: defects.map(({ from, to, why }) => ({ at: toMm(from), length: toMm(to - from), why })),
  };
}

/** What a record has to say of a piece that lies so, its outline apart. */
export function placementFacts(job: Job, placement: Placement): object {
  const piece = job.pieces[placement.piece]!;
  const part = job.parts[piece.part]!;
  const across = part.grain === 'across' ? 90 : 0;
  return {
    x: toMm(placement.x),
    y: toMm(placement.y),
    grainDeg: part.grain === 'any' ? null : (placement.turn + across) % 180,
    set: piece.set === null ? null : piece.set + 1,
    setOrder: piece.setOrder,
    face: placement.mirrored ? 'down' : 'up',
    holes: part.holes.map((hole) => {
      const { x, y } = placePoint(hole, placement);
      const depth = hole.depth === null ? 'through' : toMm(hole.depth);
      return { x: toMm(x), y: toMm(y), diameter: toMm(hole.diameter), depth };
    }),
    pockets: part.pockets.map(({ contour, depth }) => ({
      outline: flattenContour(placeContour(contour, placement), 'curve', DRAWING_CHORD_ERROR).map(
        ({ x, y }) => [toMm(x), toMm(y)],
      ),
      depth: toMm(depth),
    })),
    edges: sidesInMm(part.edgeBands),
  };
}
