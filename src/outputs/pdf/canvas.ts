import type PDFDocument from 'pdfkit';

/** Points of the PDF for one millimetre. */
export const POINTS_PER_MM = 72 / 25.4;

/** Room round the edge of a page and for its foot, in millimetres. */
export const PAGE_MARGIN = 8;
export const FOOT_HEIGHT = 6;

const FOOT_SIZE = 2.4;
const FOOT_GAP = 3;
const FOOT_COLOUR = '#615a50';

/** The document in the making, and the foot of each page so far. */
export interface Canvas {
  readonly doc: InstanceType<typeof PDFDocument>;
  readonly feet: Foot[];
}

/** What stands in the middle of a page's foot, and how far from the edges of the page. */
interface Foot {
  readonly text: string;
  readonly margin: number;
}

/** A page in millimetres. */
export interface PageSize {
  readonly width: number;
  readonly height: number;
}

export function addPage(
  { doc, feet }: Canvas,
  { width, height }: PageSize,
  text: string,
  margin: number = PAGE_MARGIN,
): void {
  sealPage(doc);
  doc.addPage({ size: [width * POINTS_PER_MM, height * POINTS_PER_MM], margin: 0 });
  feet.push({ text, margin });
}

/**
 * The writer keeps the content of a page as it was written until the page ends, which for hundreds of curved outlines fills the memory. Of a page that is kept
 * for its foot this writes out what is there as soon as the next one begins; what is added later stands in a stream of its own behind it.
 */
function sealPage(doc: Canvas['doc']): void {
  const { page, options } = doc as unknown as {
    page: KeptPage | null;
    options: { bufferPages: boolean };
  };
  if (page === null || !options.bufferPages) return;
  const { content } = page;
  page.content = doc.ref({}) as unknown as KeptPage['content'];
  page.dictionary.data.Contents = [content, page.content];
  content.end();
}

/** What the types of the writer leave out. */
interface KeptPage {
  content: { end(): void };
  readonly dictionary: { readonly data: Record<string, unknown> };
}

/** Where and how a line of letters stands; millimetres from the upper left corner of the page, `y` at the base line. */
export interface Letters {
  readonly x: number;
  readonly y: number;
  readonly size: number;
  readonly colour: string;
  readonly anchor: 'start' | 'middle' | 'end';
  /** Degrees counter-clockwise. */
  readonly turn: number;
}

/** One line of text, which never breaks and never starts a page. */
export function paintText({ doc }: Canvas, text: string, letters: Letters): void {
  const { x, y, size, colour, anchor, turn } = letters;
  const share = anchor === 'start' ? 0 : anchor === 'middle' ? 0.5 : 1;
  const at = { x: x * POINTS_PER_MM, y: y * POINTS_PER_MM };
  doc.fontSize(size * POINTS_PER_MM).fillColor(colour);
  const left = at.x - share * doc.widthOfString(text);
  if (turn !== 0) doc.save().rotate(-turn, { origin: [at.x, at.y] });
  doc.text(text, left, at.y, { lineBreak: false, baseline: 'alphabetic' });
  if (turn !== 0) doc.restore();
}

/** Width of the text in millimetres at a size in millimetres. */
export function measureText({ doc }: Canvas, text: string, size: number): number {
  return doc.fontSize(size * POINTS_PER_MM).widthOfString(text) / POINTS_PER_MM;
}

/** The foot of every page: the job, what the page says of itself, date and page number. */
export function paintFoot(canvas: Canvas, job: string, date: string | null): void {
  const { doc, feet } = canvas;
  feet.forEach(({ text, margin }, i) => {
    doc.switchToPage(i);
    const width = doc.page.width / POINTS_PER_MM;
    const y = doc.page.height / POINTS_PER_MM - margin;
    const look = { y, size: FOOT_SIZE, colour: FOOT_COLOUR, turn: 0 };
    const right = [date, `page ${i + 1} of ${feet.length}`].filter((part) => part !== null);
    const middle = width / 2;
    const taken = Math.max(40, margin + FOOT_GAP + measureText(canvas, text, FOOT_SIZE) / 2);
    paintText(canvas, shortened(canvas, job, middle - taken), {
      ...look,
      x: margin,
      anchor: 'start',
    });
    paintText(canvas, text, { ...look, x: middle, anchor: 'middle' });
    paintText(canvas, right.join(' · '), { ...look, x: width - margin, anchor: 'end' });
  });
}

function shortened(canvas: Canvas, text: string, width: number): string {
  if (measureText(canvas, text, FOOT_SIZE) <= width) return text;
  const letters = [...text];
  while (letters.length > 1 && measureText(canvas, `${letters.join('')}…`, FOOT_SIZE) > width) {
    letters.pop();
  }
  return `${letters.join('')}…`;
}
