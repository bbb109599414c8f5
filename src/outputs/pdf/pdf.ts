import { fileURLToPath } from 'node:url';
import type { Drawing } from '../../drawing/display-list.ts';
import type { Plan } from '../../model/plan.ts';
import { type Canvas, paintFoot } from './canvas.ts';
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
  const canvas = await openCanvas(plan, options.date);
  const date = options.date === null ? null : options.date.toISOString().slice(0, 10);
  paintSummary(canvas, summaryBlocks(plan, date), { width: short, height: long });
  for (const drawing of drawings) paintDrawing(canvas, drawing, { width: long, height: short });
  paintFoot(canvas, plan.job.name, date);
  return closeCanvas(canvas);
}

/** The writer is loaded only when a PDF is asked for: it takes longer to load than a small plan to make. */
async function openCanvas(plan: Plan, date: Date | null): Promise<Canvas> {
  const { default: PDFDocument } = await import('pdfkit');
  const doc = new PDFDocument({
    autoFirstPage: false,
    bufferPages: true,
    font: fileURLToPath(new URL('./font/DejaVuSansCondensed.ttf', import.meta.url)),
    lang: 'en',
    info: {
      Title: `${plan.job.name}: cutting plan`,
      Creator: 'Holdfast',
      Producer: 'Holdfast',
      CreationDate: date ?? new Date(0),
    },
  });
  return { doc, feet: [] };
}

function closeCanvas({ doc }: Canvas): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk));
    doc.on('end', () => resolve(joinBytes(chunks)));
    doc.on('error', reject);
    doc.end();
  });
}

function joinBytes(chunks: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(chunks.reduce((sum, chunk) => sum + chunk.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}
