// Lists the labels that are stuck on pieces and offcuts, in the order in which these come off the machine.
// Idea: sheet by sheet in cutting order, then board by board from left to right, then what is kept of sheets and of boards. A sticker is a set of
//   plain facts; what of them finds room is decided where it is drawn.
// Source: our own.
// Cost: linear in the pieces of each sheet times its freeing cuts.
// Degenerate cases: pieces without a place get no sticker; a job without sheets and boards has none.
import { placeContour, placePoint, placeShape } from '../geometry/pose.ts';
import { type Contour, rectangle, type Shape } from '../geometry/shape.ts';
import type { Offcut } from '../model/costs.ts';
import { counted, formatLength, formatSize, keptNumber, lengthNumber } from '../model/format.ts';
import type { FileUnit, Job } from '../model/job.ts';
import { type Hole, NO_SIDES, type Part, type Sides } from '../model/part.ts';
import { type NumberedBoard, numberedBoards, numberedSheets, type Plan } from '../model/plan.ts';
import type { Material } from '../model/stock.ts';
import { offcutLengths } from './offcut-texts.ts';
import { AFTERWARDS, isCutAfterwards, isCutOtherwise } from './saw-texts.ts';
import { type LaidPiece, piecesInOrder, type SheetView, viewSheet } from './sheet-view.ts';
import { plainText } from './text.ts';

/** What one sticker may say; null where there is nothing of the kind. */
export interface Sticker {
  readonly kind: 'piece' | 'offcut';
  readonly name: string;
  /** Which of how many of this name. */
  readonly number: number;
  readonly of: number;
  /** The lengths as printed, without their unit: length, width and thickness, or of what is cut from boards the length alone. */
  readonly lengths: readonly string[];
  readonly material: Pick<Material, 'id' | 'name'>;
  /** "Sheet 2 of 3, cut 5". */
  readonly position: string;
  /** The same for the code: "S2#5". */
  readonly place: string;
  readonly setTag: string | null;
  /** "2 edges, 1 mm". */
  readonly edges: string | null;
  readonly face: string | null;
  /** The size it has otherwise: as cut, or when finished. */
  readonly otherSize: string | null;
  readonly group: string | null;
  readonly note: string | null;
  readonly figure: Figure;
}

/** The piece before the reader, as its file has it, but seen on the face that was up: mirrored where the piece is. */
export interface Figure {
  readonly shape: Shape;
  readonly edgeBands: Sides;
  readonly holes: readonly Hole[];
  readonly pockets: readonly Contour[];
  /** Degrees counter-clockwise from the figure's x axis; null without grain. */
  readonly grainDeg: number | null;
}

export function stickersOf(plan: Plan): readonly Sticker[] {
  const views = numberedSheets(plan.layouts).map((_, i) => viewSheet(plan, i));
  const pieces = views.flatMap((view) =>
    piecesInOrder(view).map((laid) => pieceSticker(view, laid)),
  );
  const boards = numberedBoards(plan.layouts);
  const lengths = boards.flatMap((numbered) => boardStickers(plan, numbered, boards.length));
  return [...pieces, ...lengths, ...offcutStickers(plan, views)];
}

function pieceSticker(view: SheetView, laid: LaidPiece): Sticker {
  const { job } = view;
  const { part, placement, holding, doneBy, measures } = laid;
  const order = holding?.cutOrder ?? doneBy;
  const [number, of] = laid.count.split('/').map(Number);
  const rack = view.stock.rack === null ? '' : ` (${view.stock.rack})`;
  const cut = order === null ? '' : `, cut ${order}`;
  return {
    kind: 'piece',
    name: laid.name,
    number: number!,
    of: of!,
    lengths: [...measures, lengthNumber(view.material.thickness, job.unit)],
    material: view.material,
    position: `Sheet ${numberOf(view.number, view.of)}${rack}${cut}`,
    place: `S${view.number}${order === null ? '' : `#${order}`}`,
    setTag: laid.setTag,
    edges: edgesText(part.edgeBands, job.unit),
    face: placement.mirrored ? 'good face down' : 'good face up',
    otherSize: otherSize(job, part),
    group: part.group === null ? null : plainText(part.group),
    note: noteOf(view, part),
    figure: pieceFigure(view, laid),
  };
}

function numberOf(number: number, of: number): string {
  return of === 1 ? `${number}` : `${number} of ${of}`;
}

function pieceFigure({ stock }: SheetView, { part, placement }: LaidPiece): Figure {
  const { turn, mirrored } = placement;
  const pose = { x: 0, y: 0, turn: 0, mirrored };
  const { left, right, ...bands } = part.edgeBands;
  const onSheet = stock.grainAxis === 'y' ? 90 : 0;
  return {
    shape: placeShape(part.shape, pose),
    edgeBands: mirrored ? { ...bands, left: right, right: left } : part.edgeBands,
    holes: part.holes.map((hole) => ({ ...hole, ...placePoint(hole, pose) })),
    pockets: part.pockets.map(({ contour }) => placeContour(contour, pose)),
    grainDeg: stock.grainAxis === null ? null : (onSheet - turn + 360) % 180,
  };
}

function otherSize({ machine, unit }: Job, part: Part): string | null {
  if (!isCutOtherwise(part)) return null;
  return machine.kind === 'router'
    ? `cut to ${formatSize(part.width, part.height, unit)}`
    : `finished ${formatSize(part.finishedWidth, part.finishedHeight, unit)}`;
}

function noteOf({ sawing }: SheetView, part: Part): string | null {
  const own = part.note === null ? [] : [plainText(part.note)];
  const todo = sawing !== null && isCutAfterwards(part) ? [AFTERWARDS] : [];
  const notes = [...todo, ...own];
  return notes.length === 0 ? null : notes.join('; ');
}

function edgesText(bands: Sides, unit: FileUnit): string | null {
  const thicknesses = Object.values(bands).filter((thickness) => thickness > 0);
  if (thicknesses.length === 0) return null;
  const kinds = [...new Set(thicknesses)].toSorted((a, b) => a - b);
  const edges = counted(thicknesses.length, 'edge');
  return `${edges}, ${kinds.map((kind) => formatLength(kind, unit)).join(' and ')}`;
}

function boardStickers(
  { job }: Plan,
  { board, number, material: index }: NumberedBoard,
  of: number,
): readonly Sticker[] {
  const material = job.materials[index]!;
  return board.pieces.map((piece, i): Sticker => {
    const part = job.lengthParts[piece.part]!;
    return {
      ...PLAIN,
      name: plainText(part.name),
      number: piece.number,
      of: part.count,
      lengths: [lengthNumber(part.length, job.unit)],
      material,
      position: `Board ${numberOf(number, of)}, place ${i + 1}`,
      place: `B${number}#${i + 1}`,
      group: part.group === null ? null : plainText(part.group),
      note: part.note === null ? null : plainText(part.note),
      figure: barFigure(part.length, material.thickness),
    };
  });
}

const PLAIN = {
  kind: 'piece',
  setTag: null,
  edges: null,
  face: null,
  otherSize: null,
  group: null,
  note: null,
} as const;

function barFigure(length: number, width: number): Figure {
  return { ...boxFigure(length, width), grainDeg: 0 };
}

function boxFigure(width: number, height: number): Omit<Figure, 'grainDeg'> {
  return {
    shape: { outer: rectangle(0, 0, width, height), inner: [] },
    edgeBands: NO_SIDES,
    holes: [],
    pockets: [],
  };
}

/** What is kept gets its label from the rack later, so there is room to write it. */
const RACK_NOTE = 'Rack label: __________';

function offcutStickers(plan: Plan, views: readonly SheetView[]): readonly Sticker[] {
  const { job } = plan;
  const boards = numberedBoards(plan.layouts);
  const ofSheets = views.flatMap((view) =>
    (view.costs?.offcuts ?? []).map((offcut) => sheetOffcut(view, offcut)),
  );
  const ofBoards = boards.flatMap(({ number, material: index }) => {
    const material = job.materials[index]!;
    const kept = (plan.costs.boards[number - 1]?.leftovers ?? []).filter(({ isKept }) => isKept);
    return kept.map(({ from, to }) => ({
      lengths: [keptNumber(to - from, job.unit)],
      material,
      position: `From board ${numberOf(number, boards.length)}`,
      place: `B${number}`,
      figure: barFigure(to - from, material.thickness),
    }));
  });
  const all = [...ofSheets, ...ofBoards];
  return all.map((each, i) => ({
    ...PLAIN,
    ...each,
    kind: 'offcut',
    name: 'Offcut',
    number: i + 1,
    of: all.length,
    note: RACK_NOTE,
  }));
}

function sheetOffcut(view: SheetView, offcut: Offcut) {
  const { job, material, stock, number, of } = view;
  const { minX, minY, maxX, maxY } = offcut.box;
  const grain = stock.grainAxis === null ? null : stock.grainAxis === 'x' ? 0 : 90;
  return {
    lengths: [...offcutLengths(job, offcut.box), lengthNumber(material.thickness, job.unit)],
    material,
    position: `From sheet ${numberOf(number, of)}`,
    place: `S${number}`,
    figure: { ...boxFigure(maxX - minX, maxY - minY), grainDeg: grain },
  };
}
