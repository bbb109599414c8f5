import type { Drawing } from '../../drawing/display-list.ts';
import type { Plan } from '../../model/plan.ts';
import { paintFoot } from './canvas.ts';
import { closeCanvas, openCanvas } from './document.ts';
import { paintDrawing } from './drawing-page.ts';
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
  readonly drawings: readonly Drawing[];
}

/** `date` is printed and noted as the date of creation; null for none, so that the same plan gives the same bytes. */
export interface PdfOptions {
  readonly paper: Paper;
  readonly date: Date | null;
}

/** The plan as a PDF file: upright summary pages, then the drawings across the paper, each as large as it fits. */
export async function toPdf(
  { plan, drawings }: PdfContent,
  options: PdfOptions,
): Promise<Uint8Array> {
  const [long, short] = PAPERS[options.paper];
  const canvas = await openCanvas(`${plan.job.name}: cutting plan`, options.date);
  const date = options.date === null ? null : options.date.toISOString().slice(0, 10);
  paintSummary(canvas, summaryBlocks(plan, date), { width: short, height: long });
  for (const drawing of drawings) paintDrawing(canvas, drawing, { width: long, height: short });
  paintFoot(canvas, plan.job.name, date);
  return closeCanvas(canvas);
}
