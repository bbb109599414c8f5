import type { Drawing } from '../../drawing/display-list.ts';
import { tilePages } from '../../drawing/tile-pages.ts';
import { type PaperSize, tileDrawing } from '../../drawing/tiles.ts';
import type { FileUnit, Job } from '../../model/job.ts';
import type { Plan } from '../../model/plan.ts';
import { type Canvas, type PageSize, paintFoot } from './canvas.ts';
import { closeCanvas, openCanvas } from './document.ts';
import { paintDrawing, paintTile, roomOf } from './drawing-page.ts';
import { summaryBlocks } from './summary.ts';
import { paintSummary } from './summary-page.ts';

/** Pages in landscape, long side first, in millimetres. */
const PAPERS = {
  a4: [297, 210],
  a3: [420, 297],
  letter: [279.4, 215.9],
  tabloid: [431.8, 279.4],
} as const;

export type Paper = keyof typeof PAPERS;
export const PAPER_NAMES = Object.keys(PAPERS) as readonly Paper[];

/** What the document shows: the summary of the plan, then a page for each drawing. */
export interface PdfContent {
  readonly plan: Plan;
  readonly drawings: Iterable<Drawing>;
}

/** `date` is printed and noted as the date of creation; null for none, so that the same plan gives the same bytes. */
export interface PdfOptions {
  readonly paper: Paper;
  /** Millimetres of a sheet for one of the paper; null: each as large as it fits a page. */
  readonly scale: number | null;
  readonly date: Date | null;
}

/** Long side first, in millimetres. */
export function paperSize(paper: Paper): PaperSize {
  return PAPERS[paper];
}

/** What a page across has for a drawing, in millimetres. */
export function drawingRoom(paper: Paper): PageSize {
  const [width, height] = PAPERS[paper];
  return roomOf({ width, height });
}

/** The plan as a PDF file: upright summary pages, then the drawings, each on a page across, or on several where its scale asks for more. */
export async function toPdf(
  { plan, drawings }: PdfContent,
  options: PdfOptions,
): Promise<Uint8Array> {
  const [long, short] = PAPERS[options.paper];
  const { name, unit } = plan.job;
  const canvas = await openCanvas(`${name}: cutting plan`, options.date);
  const date = printedDate(options.date);
  paintSummary(canvas, summaryBlocks(plan, date), { width: short, height: long });
  const page = { width: long, height: short };
  for (const drawing of drawings) {
    if (fits(drawing, options)) paintDrawing(canvas, drawing, { page, scale: options.scale, unit });
    else paintTiles(canvas, drawing, options, unit);
  }
  paintFoot(canvas, name, date);
  return closeCanvas(canvas);
}

/** Drawings at their own size as a PDF file of their own, on as many pages as each takes. */
export async function toTemplatesPdf(
  { name, unit }: Job,
  drawings: readonly Drawing[],
  { paper, date }: Omit<PdfOptions, 'scale'>,
): Promise<Uint8Array> {
  const canvas = await openCanvas(`${name}: templates`, date);
  for (const drawing of drawings) paintTiles(canvas, drawing, { paper, scale: 1 }, unit);
  paintFoot(canvas, name, printedDate(date));
  return closeCanvas(canvas);
}

type Spread = Pick<PdfOptions, 'paper' | 'scale'>;

function fits({ toScale, width, height }: Drawing, { paper, scale }: Spread): boolean {
  const room = drawingRoom(paper);
  return (
    !toScale || scale === null || (width <= room.width * scale && height <= room.height * scale)
  );
}

function paintTiles(canvas: Canvas, drawing: Drawing, to: Spread, unit: FileUnit): void {
  const tiling = tileDrawing(drawing, PAPERS[to.paper], to.scale ?? 1, unit);
  for (const page of tilePages(drawing, tiling, unit)) paintTile(canvas, page);
}

function printedDate(date: Date | null): string | null {
  return date === null ? null : date.toISOString().slice(0, 10);
}
