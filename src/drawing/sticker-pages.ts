import { type LabelGrid, labelsPerPage } from '../model/label-grid.ts';
import type { Plan } from '../model/plan.ts';
import { toMm } from '../model/units.ts';
import type { Drawing, Group, Item } from './display-list.ts';
import {
  type Code,
  type CodeRoom,
  codeText,
  drawCode,
  fittingCode,
  type StickerPlan,
} from './sticker-code.ts';
import { drawFigure, type Room } from './sticker-figure.ts';
import { type StickerRooms, stickerRooms } from './sticker-rooms.ts';
import { drawStickerText } from './sticker-text.ts';
import { type Sticker, stickersOf } from './stickers.ts';
import { plainText } from './text.ts';

/** How the labels of a plan are printed. */
export interface StickerOptions {
  readonly grid: LabelGrid;
  /** The label of the first sheet of paper that is printed first, from 1: those before it are used already. */
  readonly first: number;
  /** The beginning of the hash of the plan's record. */
  readonly mark: string;
  /** As it is printed; null for none. */
  readonly date: string | null;
}

/** A page of labels, and what is worth saying of them. */
export interface StickerPage {
  readonly drawing: Drawing;
  readonly labels: number;
  /** Labels whose code would have been too fine to be read. */
  readonly withoutCode: number;
}

/** All labels of a plan, a drawing for each page, in millimetres of the paper. One at a time, as the codes of thousands fill the memory. */
export function* drawStickers(plan: Plan, options: StickerOptions): Generator<StickerPage> {
  const { grid, first, mark } = options;
  const [width, height] = [toMm(grid.label.width), toMm(grid.label.height)];
  const common = { job: plainText(plan.job.name), unit: plan.job.unit, mark };
  const rooms = stickerRooms(width, height);
  const stickers = stickersOf(plan);
  const perPage = labelsPerPage(grid);
  const paper = paperOf(grid);
  for (let from = 1 - first, number = 1; from < stickers.length; from += perPage, number++) {
    const cells = Array.from({ length: perPage }, (_, place) => ({ place, index: from + place }));
    const labels = cells.flatMap(({ place, index }) => {
      const sticker = stickers[index];
      if (sticker === undefined) return [];
      return [{ place, index, label: drawSticker(sticker, common, options.date, rooms) }];
    });
    const groups = labels.map(({ place, index, label }) =>
      placed(label, index, cellOf(grid, place), paper.height),
    );
    const withoutCode = labels.filter(({ label }) => label.code === null).length;
    yield { drawing: page(paper, number, groups), labels: labels.length, withoutCode };
  }
}

/** The cell of a page with this index, row by row from the upper left one, in millimetres from the lower left corner of the page. */
export function cellOf(grid: LabelGrid, place: number): Room {
  const [width, height] = [toMm(grid.label.width), toMm(grid.label.height)];
  if (grid.kind === 'roll') return { left: 0, bottom: 0, width, height };
  const { left, top, pitch, paper, columns } = grid;
  const [column, row] = [place % columns, Math.floor(place / columns)];
  return {
    left: toMm(left + column * pitch.width),
    bottom: toMm(paper.height - top - row * pitch.height - grid.label.height),
    width,
    height,
  };
}

interface DrawnSticker {
  readonly title: string;
  /** All but the code, which is drawn where it comes to lie. */
  readonly items: readonly Item[];
  readonly code: (Code & CodeRoom) | null;
}

/** From the lower left corner of its label. */
function drawSticker(
  sticker: Sticker,
  plan: StickerPlan,
  date: string | null,
  { text, figure, code }: StickerRooms,
): DrawnSticker {
  const found = code === null ? null : fittingCode(sticker, plan, code.side);
  return {
    title: codeText(sticker, plan),
    items: [
      ...drawStickerText(sticker, plan, date, text),
      ...(figure === null ? [] : drawFigure(sticker.figure, figure)),
    ],
    code: found === null || code === null ? null : { ...found, ...code },
  };
}

function placed(
  { items, title, code }: DrawnSticker,
  index: number,
  { left, bottom }: Room,
  pageHeight: number,
): Group {
  const moved = items.map((item) => movedItem(item, left, bottom));
  if (code !== null) {
    const corner = { x: code.corner.x + left, y: code.corner.y + bottom };
    moved.push(drawCode(code, { corner, side: code.side }, pageHeight));
  }
  return { id: `label-${index + 1}`, title, items: moved };
}

function movedItem(item: Item, left: number, bottom: number): Item {
  const moved = <At extends { x: number; y: number }>(at: At): At => ({
    ...at,
    x: at.x + left,
    y: at.y + bottom,
  });
  if (item.kind === 'text') return { ...item, at: moved(item.at) };
  if (item.kind === 'line') return { ...item, from: moved(item.from), to: moved(item.to) };
  if (item.kind === 'circle') return { ...item, centre: moved(item.centre) };
  const runs = item.runs.map(({ start, sides, closed }) => ({
    start: moved(start),
    sides: sides.map(moved),
    closed,
  }));
  return { ...item, runs };
}

function paperOf(grid: LabelGrid): { readonly width: number; readonly height: number } {
  const { width, height } = grid.kind === 'roll' ? grid.label : grid.paper;
  return { width: toMm(width), height: toMm(height) };
}

function page(
  { width, height }: { readonly width: number; readonly height: number },
  number: number,
  groups: readonly Group[],
): Drawing {
  return {
    id: `labels-${number}`,
    title: `Labels, page ${number}`,
    left: 0,
    bottom: 0,
    width,
    height,
    paperScale: 1,
    toScale: false,
    layers: [{ name: 'stickers', groups }],
  };
}
