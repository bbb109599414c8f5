import type { Box } from '../geometry/box.ts';
import { boxOfShape, placeShape } from '../geometry/pose.ts';
import type { Shape } from '../geometry/shape.ts';
import type { Job } from '../model/job.ts';
import type { Layout, Placement } from '../model/layout.ts';
import type { Part, Piece } from '../model/part.ts';
import type { SheetStock } from '../model/stock.ts';

/** A piece where it lies, in the coordinates of its sheet. */
export interface LaidPiece {
  readonly piece: Piece;
  readonly part: Part;
  /** Index into the layout's sheets. */
  readonly sheet: number;
  readonly placement: Placement;
  readonly shape: Shape;
  readonly box: Box;
}

/** The pieces of one sheet; `stock` is null where the layout names a sheet that the material has not. */
export interface LaidSheet {
  readonly index: number;
  readonly stock: SheetStock | null;
  readonly pieces: readonly LaidPiece[];
}

/**
 * Lays every piece by its placement, anew from the part's own shape.
 * A placement without a known piece or without whole coordinates has no place to be laid at; other checks report it.
 */
export function layPieces(job: Job, layout: Layout): readonly LaidSheet[] {
  const stocks = job.materials[layout.material]?.sheets ?? [];
  return layout.sheets.map((sheet, index) => ({
    index,
    stock: stocks[sheet.stock] ?? null,
    pieces: sheet.placements.flatMap((placement) => layPiece(job, placement, index)),
  }));
}

/** Whether the numbers of a placement are a place on the integer grid at all. */
export function isPlace({ x, y, turn }: Placement): boolean {
  return Number.isSafeInteger(x) && Number.isSafeInteger(y) && Number.isFinite(turn);
}

function layPiece(job: Job, placement: Placement, sheet: number): LaidPiece[] {
  const piece = job.pieces[placement.piece];
  const part = piece && job.parts[piece.part];
  if (!piece || !part || !isPlace(placement)) return [];
  const shape = placeShape(part.shape, placement);
  return [{ piece, part, sheet, placement, shape, box: boxOfShape(shape) }];
}
