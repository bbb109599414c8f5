import type { Drawing } from '../../drawing/display-list.ts';
import type { Block, Column } from './blocks.ts';
import {
  addPage,
  type Canvas,
  FOOT_HEIGHT,
  measureText,
  PAGE_MARGIN,
  type PageSize,
  POINTS_PER_MM,
  paintText,
} from './canvas.ts';
import { paintLayers } from './drawing-page.ts';

/** Sizes of letters and steps in millimetres on A4; larger paper has larger letters. */
const A4_WIDTH = 210;
const BODY = 2.9;
const HEADING = 4;
const TITLE = 7;
const LINE = 1.4;
const SIDE_MARGIN = 18;
const TOP_MARGIN = 15;
const CELL_GAP = 3.5;
const LIST_INDENT = 4;
const LIST_GAP = BODY * 0.25;
const INK = '#2a2723';
const SOFT = '#615a50';
const RULE = '#b9ad98';

/** The blocks one under the other on as many pages as they take. */
export function paintSummary(canvas: Canvas, blocks: readonly Block[], page: PageSize): void {
  const cursor = new Cursor(canvas, page);
  blocks.forEach((block, i) => {
    const next = blocks[i + 1];
    if (block.kind === 'heading' && next?.kind === 'list') {
      cursor.keep(HEADING * 3 + listHeight(cursor, next.entries));
    }
    if (block.kind === 'heading' && next?.kind === 'drawing') {
      cursor.keep(HEADING * 3 + next.drawing.height);
    }
    paintBlock(cursor, block);
  });
}

/** Where the next line goes; starts a page when one is full. Lengths in millimetres on A4. */
class Cursor {
  readonly canvas: Canvas;
  readonly width: number;
  private readonly page: PageSize;
  private readonly zoom: number;
  private y = 0;

  constructor(canvas: Canvas, page: PageSize) {
    this.canvas = canvas;
    this.page = page;
    this.zoom = page.width / A4_WIDTH;
    this.width = A4_WIDTH - 2 * SIDE_MARGIN;
    this.newPage();
  }

  /** Room for `height` on this page or the next. */
  keep(height: number): void {
    const bottom = this.page.height / this.zoom - PAGE_MARGIN - FOOT_HEIGHT - 4;
    if (this.y + height > bottom) this.newPage();
  }

  skip(height: number): void {
    this.y += height;
  }

  /** Letters on the line that `drop` under the cursor is the base of. */
  write(text: string, x: number, drop: number, look: Look): void {
    paintText(this.canvas, text, {
      x: (SIDE_MARGIN + x) * this.zoom,
      y: (this.y + drop) * this.zoom,
      size: look.size * this.zoom,
      colour: look.colour,
      anchor: look.anchor,
      turn: 0,
    });
  }

  rule(weight: number, colour: string): void {
    const points = (length: number) => length * this.zoom * POINTS_PER_MM;
    this.canvas.doc
      .moveTo(points(SIDE_MARGIN), points(this.y))
      .lineTo(points(SIDE_MARGIN + this.width), points(this.y))
      .lineWidth(points(weight))
      .strokeColor(colour)
      .stroke();
  }

  draw(drawing: Drawing): void {
    paintLayers(this.canvas, {
      drawing,
      scale: 1 / this.zoom,
      left: SIDE_MARGIN * this.zoom,
      top: this.y * this.zoom,
    });
  }

  measure(text: string, size: number): number {
    return measureText(this.canvas, text, size * this.zoom) / this.zoom;
  }

  newPage(): void {
    addPage(this.canvas, this.page, '');
    this.y = TOP_MARGIN;
  }
}

interface Look {
  readonly size: number;
  readonly colour: string;
  readonly anchor: 'start' | 'end';
}

const PLAIN: Look = { size: BODY, colour: INK, anchor: 'start' };
const QUIET: Look = { ...PLAIN, colour: SOFT };

function paintBlock(cursor: Cursor, block: Block): void {
  switch (block.kind) {
    case 'title':
      paintTitle(cursor, block.text, block.under);
      break;
    case 'page':
      cursor.newPage();
      break;
    case 'heading':
      cursor.keep(HEADING * 6);
      cursor.skip(HEADING * 1.6);
      cursor.write(block.text, 0, 0, { ...PLAIN, size: HEADING });
      cursor.skip(BODY * 1.2);
      break;
    case 'paragraph':
      paintLines(cursor, wrapped(cursor, block.text, cursor.width), 0);
      cursor.skip(BODY * 0.6);
      break;
    case 'list':
      for (const entry of block.entries) {
        const lines = wrapped(cursor, entry, cursor.width - LIST_INDENT);
        cursor.keep(lines.length * BODY * LINE);
        cursor.write('–', 0, BODY, QUIET);
        paintLines(cursor, lines, LIST_INDENT);
        cursor.skip(LIST_GAP);
      }
      cursor.skip(BODY * 0.4);
      break;
    case 'drawing':
      cursor.keep(block.drawing.height);
      cursor.draw(block.drawing);
      cursor.skip(block.drawing.height);
      break;
    case 'table':
      paintTable(cursor, block.columns, block.rows);
      break;
  }
}

function listHeight(cursor: Cursor, entries: readonly string[]): number {
  const lines = entries.map((entry) => wrapped(cursor, entry, cursor.width - LIST_INDENT).length);
  return lines.reduce((sum, count) => sum + count * BODY * LINE + LIST_GAP, 0);
}

function paintTitle(cursor: Cursor, text: string, under: string): void {
  for (const line of wrapped(cursor, text, cursor.width, TITLE)) {
    cursor.write(line, 0, TITLE * 0.8, { ...PLAIN, size: TITLE });
    cursor.skip(TITLE * 1.25);
  }
  cursor.write(under, 0, BODY, QUIET);
  cursor.skip(BODY * 2);
  cursor.rule(0.3, INK);
  cursor.skip(BODY * 1.6);
}

function paintLines(cursor: Cursor, lines: readonly string[], x: number): void {
  for (const line of lines) {
    cursor.keep(BODY * LINE);
    cursor.write(line, x, BODY, PLAIN);
    cursor.skip(BODY * LINE);
  }
}

function paintTable(
  cursor: Cursor,
  columns: readonly Column[],
  rows: readonly (readonly string[])[],
): void {
  const places = columnPlaces(columns, cursor.width);
  const cells = (row: readonly string[]) =>
    row.map((text, i) => wrapped(cursor, text, (places[i]?.width ?? 0) - CELL_GAP));
  cursor.keep(BODY * 6);
  paintRow(cursor, cells(columns.map(({ head }) => head)), places, QUIET);
  cursor.rule(0.25, INK);
  for (const row of rows) {
    paintRow(cursor, cells(row), places, PLAIN);
    cursor.rule(0.12, RULE);
  }
  cursor.skip(BODY);
}

interface ColumnPlace {
  readonly x: number;
  readonly width: number;
  readonly right: boolean;
}

function columnPlaces(columns: readonly Column[], width: number): readonly ColumnPlace[] {
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  let x = 0;
  return columns.map(({ share, right }) => {
    const place = { x, width: (share / shares) * width, right };
    x += place.width;
    return place;
  });
}

/** Cells of one or more lines each, side by side; the row stays on one page. */
function paintRow(
  cursor: Cursor,
  cells: readonly (readonly string[])[],
  places: readonly ColumnPlace[],
  look: Look,
): void {
  const height = Math.max(...cells.map((lines) => lines.length)) * BODY * LINE + BODY * 0.4;
  cursor.keep(height);
  cells.forEach((lines, i) => {
    const { x = 0, width = 0, right = false } = places[i] ?? {};
    lines.forEach((line, k) => {
      const drop = BODY * 1.2 + k * BODY * LINE;
      if (right) cursor.write(line, x + width - CELL_GAP, drop, { ...look, anchor: 'end' });
      else cursor.write(line, x, drop, look);
    });
  });
  cursor.skip(height);
}

/** Lines no wider than `width`; a word that is wider by itself is broken where it has to be. */
function wrapped(cursor: Cursor, text: string, width: number, size = BODY): readonly string[] {
  const lines: string[] = [];
  let current = '';
  for (const word of text.split(/\s+/)) {
    const longer = current === '' ? word : `${current} ${word}`;
    if (cursor.measure(longer, size) <= width) {
      current = longer;
      continue;
    }
    if (current !== '') lines.push(current);
    current = '';
    for (const letter of word) {
      if (current !== '' && cursor.measure(current + letter, size) > width) {
        lines.push(current);
        current = '';
      }
      current += letter;
    }
  }
  return [...lines, current];
}
