import { boxOfShape, placeShape } from '../geometry/pose.ts';
import { rectangle } from '../geometry/shape.ts';
import type { FileUnit } from '../model/job.ts';
import type { Part } from '../model/part.ts';
import { type Material, type SheetStock, usableBox } from '../model/stock.ts';
import { turnsOn } from '../model/turns.ts';
import { showSize } from './lengths.ts';

/** Why a part fits no sheet of its material even alone, as the words of a problem; null where it fits one. */
export interface Misfit {
  readonly message: string;
  readonly hint: string;
}

/** What must lie on one sheet: one part, or the row of a matched set with the box that it takes in the part's own coordinates. */
export interface FitBody {
  readonly part: Part;
  readonly row: { readonly width: number; readonly height: number } | null;
}

export function findMisfit(
  { part, row }: FitBody,
  material: Material,
  unit: FileUnit,
): Misfit | null {
  const fits = material.sheets.some((sheet) =>
    turnsOn(part, sheet).some((turn) => fitsAt(part, row, turn, sheet)),
  );
  if (fits) return null;
  const { width, height } = row ?? part;
  const name = row === null ? part.name : `the row of ${part.name}`;
  return {
    message: `${name}, ${showSize(width, height, unit)}, fits no sheet of ${material.name} at its allowed turns; the largest leaves ${largestUse(material, unit)}`,
    hint: 'is the size right, and the unit? grain and turns decide which way it may lie',
  };
}

function fitsAt(part: Part, row: FitBody['row'], turn: number, sheet: SheetStock): boolean {
  const usable = usableBox(sheet);
  const box = turnedBox(part, row, turn);
  return box.width <= usable.maxX - usable.minX && box.height <= usable.maxY - usable.minY;
}

function turnedBox(part: Part, row: FitBody['row'], turn: number) {
  const { width, height } = row ?? part;
  if (turn % 180 === 0) return { width, height };
  if (turn % 90 === 0) return { width: height, height: width };
  const shape = row === null ? part.shape : { outer: rectangle(0, 0, width, height), inner: [] };
  const box = boxOfShape(placeShape(shape, { x: 0, y: 0, turn, mirrored: false }));
  return { width: box.maxX - box.minX, height: box.maxY - box.minY };
}

function largestUse({ sheets }: Material, unit: FileUnit): string {
  const boxes = sheets.map(usableBox).map(({ minX, minY, maxX, maxY }) => ({
    width: maxX - minX,
    height: maxY - minY,
  }));
  const [largest] = boxes.toSorted((a, b) => b.width * b.height - a.width * a.height);
  return largest === undefined ? 'nothing' : showSize(largest.width, largest.height, unit);
}
