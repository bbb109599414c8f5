import { assert } from '../geometry/assert.ts';
import type { Box } from '../geometry/box.ts';
import { flattenShape } from '../geometry/flatten.ts';
import { boxOfShape, placeShape } from '../geometry/pose.ts';
import type { Region, Ring, Shape } from '../geometry/shape.ts';
import type { SheetCosts } from '../model/costs.ts';
import { lengthNumber } from '../model/format.ts';
import type { Holding, SheetHolding, SkinStep } from '../model/holding.ts';
import type { Job } from '../model/job.ts';
import type { Placement } from '../model/layout.ts';
import type { Part, Piece } from '../model/part.ts';
import { numberedSheets, type Plan } from '../model/plan.ts';
import type { Material, SheetStock } from '../model/stock.ts';
import { fromMm } from '../model/units.ts';
import { oncePer } from './once-per.ts';
import { type SawGroup, sawGroupOf } from './saw-groups.ts';
import type { SawStep } from './saw-steps.ts';
import { settingNumber } from './saw-texts.ts';
import { plainText } from './text.ts';

/** Labels and marks need no finer outline than this. */
const LABEL_CHORD_ERROR = fromMm(0.5);

/** One piece as it lies, with all that a drawing says about it. */
export interface LaidPiece {
  readonly piece: Piece;
  readonly part: Part;
  readonly placement: Placement;
  readonly shape: Shape;
  readonly box: Box;
  readonly region: Region;
  readonly holding: Holding | null;
  /** The cut of a saw that it is done by; null at a router. */
  readonly doneBy: number | null;
  readonly name: string;
  /** "2/4": which of how many of this name. */
  readonly count: string;
  /** "A2": letter of the matched set and place in it; null for a piece on its own. */
  readonly setTag: string | null;
  /** Across and upwards as the part is drawn in its file: finished at a router, at a saw as cut. */
  readonly measures: readonly [string, string];
  readonly size: string;
}

/** Loose waste that the holding plan reckons with. */
export interface LaidWaste {
  readonly holding: Holding;
  readonly outline: Ring;
  readonly name: string;
}

/** Everything that the drawing of one sheet needs, looked up once. */
export interface SheetView {
  readonly job: Job;
  readonly number: number;
  readonly of: number;
  readonly material: Material;
  readonly stock: SheetStock;
  readonly pieces: readonly LaidPiece[];
  readonly waste: readonly LaidWaste[];
  readonly costs: SheetCosts | null;
  /** Along the cutting order; null where nothing is cut. */
  readonly vacuum: Pick<SheetHolding, 'vacuumStartKpa' | 'vacuumAlongKpa' | 'lostAfter'> | null;
  /** How it is sawn, with the sheets that are like it; null at a router. */
  readonly sawing: SawGroup | null;
  /** Taken off after all cuts, in this order. */
  readonly skins: readonly SkinStep[];
}

/** The sheet with this index in the whole job, from 0. */
export function viewSheet(plan: Plan, sheetIndex: number): SheetView {
  const { job } = plan;
  const sheets = numberedSheets(plan.layouts);
  const numbered = sheets[sheetIndex];
  assert(numbered !== undefined, 'the plan has a sheet of this index');
  const material = job.materials[numbered.material];
  const stock = material?.sheets[numbered.sheet.stock];
  assert(material !== undefined && stock !== undefined, 'the sheet is of a stock of its material');
  const held = plan.holding.find((entry) => entry.sheet === numbered.number);
  const loose = held?.loose ?? [];
  const sawing = sawGroupOf(plan, numbered.number);
  return {
    job,
    number: numbered.number,
    of: sheets.length,
    material,
    stock,
    pieces: numbered.sheet.placements.map((placement) => layPiece(job, placement, loose, sawing)),
    waste: loose.flatMap((holding) => layWaste(job, holding)),
    costs: plan.costs.sheets.find((entry) => entry.sheet === numbered.number) ?? null,
    vacuum: held !== undefined && held.vacuumAlongKpa.length > 0 ? held : null,
    sawing,
    skins: held?.steps.filter((step) => step.kind === 'skin') ?? [],
  };
}

/** Pieces and waste, the first to come free first. */
export function thingsInOrder(view: SheetView): readonly (LaidPiece | LaidWaste)[] {
  const place = (thing: LaidPiece | LaidWaste) =>
    thing.holding?.cutOrder ?? ('doneBy' in thing ? thing.doneBy : null) ?? Number.MAX_SAFE_INTEGER;
  return [...view.pieces, ...view.waste].toSorted((a, b) => place(a) - place(b));
}

/** The pieces alone, in the same order. */
export function piecesInOrder(view: SheetView): readonly LaidPiece[] {
  return thingsInOrder(view).flatMap((thing) => ('piece' in thing ? [thing] : []));
}

/** The name of a piece with its number among those of the same name: "Side 2/4". */
export function pieceName(job: Job, pieceIndex: number): string {
  const { name, count } = nameOf(job, pieceIndex);
  return `${name} ${count}`;
}

function layPiece(
  job: Job,
  placement: Placement,
  loose: readonly Holding[],
  sawing: SawGroup | null,
): LaidPiece {
  const piece = job.pieces[placement.piece];
  const part = piece && job.parts[piece.part];
  assert(piece !== undefined && part !== undefined, 'a placement is of a piece of the job');
  const shape = placeShape(part.shape, placement);
  const measures = measuresOf(job, part);
  return {
    piece,
    part,
    placement,
    shape,
    box: boxOfShape(shape),
    region: flattenShape(shape, 'curve', LABEL_CHORD_ERROR),
    holding: loose.find((entry) => entry.kind === 'piece' && entry.piece === piece.index) ?? null,
    doneBy: sawing?.steps.find((step) => finishes(step, piece.index))?.number ?? null,
    ...nameOf(job, piece.index),
    setTag: piece.set === null ? null : `${indexLetters(piece.set)}${piece.setOrder ?? ''}`,
    measures,
    size: measures.join(' × '),
  };
}

function measuresOf({ machine, unit }: Job, part: Part): readonly [string, string] {
  return machine.kind === 'router'
    ? [lengthNumber(part.finishedWidth, unit), lengthNumber(part.finishedHeight, unit)]
    : [settingNumber(part.width, unit), settingNumber(part.height, unit)];
}

function finishes({ guided, off }: SawStep, piece: number): boolean {
  return [guided, off].some(({ thing }) => thing.kind === 'piece' && thing.pieces.includes(piece));
}

function layWaste(job: Job, holding: Holding): readonly LaidWaste[] {
  const { kind, outline, piece } = holding;
  if (kind === 'piece' || outline === null) return [];
  const name = piece === null ? kind : `${kind} in ${pieceName(job, piece)}`;
  return [{ holding, outline, name }];
}

function nameOf(job: Job, pieceIndex: number): { name: string; count: string } {
  const piece = job.pieces[pieceIndex];
  const part = piece && job.parts[piece.part];
  assert(piece !== undefined && part !== undefined, 'the piece is one of the job');
  return { name: plainText(part.name), count: `${piece.number}/${namesakes(job).get(part.name)}` };
}

/** How many pieces have each name. */
const namesakes = oncePer(({ parts, pieces }: Job): ReadonlyMap<string, number> => {
  const counts = new Map<string, number>();
  for (const { part } of pieces) {
    const { name } = parts[part]!;
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  return counts;
});

/** A, B, … Z, AA, AB, … */
export function indexLetters(index: number): string {
  const last = String.fromCharCode(65 + (index % 26));
  return index < 26 ? last : `${indexLetters(Math.floor(index / 26) - 1)}${last}`;
}
