/**
 * The open kerf of a sheet, as a sum that does not depend on the order of the cuts.
 *
 * All cuts of a piece follow one another and are one block. A block opens its own kerf less what it
 * shares with blocks that are cut already. Lengths are whole micrometres, so that every order adds
 * up to the same sum to the last digit; a share is rounded down, so that no block closes kerf.
 */
import { boxOf } from '../geometry/box.ts';
import type { Point } from '../geometry/point.ts';
import type { LaidPiece } from './laid-pieces.ts';

export interface Block {
  /** Index of the block with the cut-out in which this one lies. */
  readonly host: number | null;
  /** What it opens where nothing is cut yet. */
  readonly kerfUm: number;
  /** What other blocks open too. */
  readonly shared: readonly KerfShare[];
  /** Twice the centre of its box, so that it is on the grid. */
  readonly centre: Point;
}

export interface KerfShare {
  readonly block: number;
  readonly um: number;
}

/** One for each piece, in their order. */
export function blocksOf(laid: readonly LaidPiece[]): Block[] {
  return laid.map((each) => {
    const { minX, minY, maxX, maxY } = boxOf(each.region.outer);
    const openings = each.open.openings.reduce((sum, { kerfMm }) => sum + kerfUm(kerfMm), 0);
    return {
      host: each.host,
      kerfUm: openings + kerfUm(each.outlineKerfMm),
      shared: sharesOf(each),
      centre: { x: minX + maxX, y: minY + maxY },
    };
  });
}

export function sharesOf({ sharedKerfMm }: LaidPiece): KerfShare[] {
  return [...sharedKerfMm].map(([block, mm]) => ({ block, um: Math.floor(mm * 1000) }));
}

/** In whole micrometres. */
export function kerfUm(mm: number): number {
  return Math.round(mm * 1000);
}

/** Which blocks are cut: 1 where one is. */
export type CutMarks = Uint8Array;

/** What a block opens beside those that are cut. */
export function openedUm({ kerfUm: ownUm, shared }: Block, cut: CutMarks): number {
  let um = ownUm;
  for (const share of shared) if (cut[share.block] === 1) um -= share.um;
  return um;
}
