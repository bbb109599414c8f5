import { DRAWING_CHORD_ERROR, flattenContour, flattenShape } from '../geometry/flatten.ts';
import { placeContour, placePoint, placeShape } from '../geometry/pose.ts';
import type { Region, Ring } from '../geometry/shape.ts';
import type { Job } from '../model/job.ts';
import type { Layout, Placement } from '../model/layout.ts';
import type { Hole } from '../model/part.ts';
import { numberedSheets } from '../model/plan.ts';

/** A piece as it lies on its sheet: polygon within the drawing's chord error, drilled holes and pockets, in sheet coordinates. */
export interface PlacedPiece {
  readonly placement: Placement;
  readonly region: Region;
  readonly holes: readonly Hole[];
  readonly pockets: readonly { readonly ring: Ring; readonly depth: number }[];
}

/** The placed pieces of every sheet, in the order of the sheets' numbers. */
export function placedPieces(
  job: Job,
  layouts: readonly Layout[],
): readonly (readonly PlacedPiece[])[] {
  return numberedSheets(layouts).map(({ sheet }) =>
    sheet.placements.map((placement) => placePiece(job, placement)),
  );
}

function placePiece(job: Job, placement: Placement): PlacedPiece {
  const part = job.parts[job.pieces[placement.piece]!.part]!;
  return {
    placement,
    region: flattenShape(placeShape(part.shape, placement), 'curve', DRAWING_CHORD_ERROR),
    holes: part.holes.map((hole) => ({ ...hole, ...placePoint(hole, placement) })),
    pockets: part.pockets.map(({ contour, depth }) => ({
      ring: flattenContour(placeContour(contour, placement), 'curve', DRAWING_CHORD_ERROR),
      depth,
    })),
  };
}
