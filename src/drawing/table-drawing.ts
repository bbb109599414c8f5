import type { Item } from './display-list.ts';
import { line } from './display-list.ts';
import { actionSign, alertSign, type Frame, frameAt, lettering, orderBadge } from './marks.ts';
import type { TableRow } from './sheet-table.ts';
import { LETTERS } from './styles.ts';
import { textWidth, wrapText } from './text.ts';

const ROW_PITCH = 3.65;
const HEAD_HEIGHT = 5.2;
const COLUMN_GAP = 2.2;
export const TABLE_GAP = 6;
const NOTE_PITCH = 3.4;
const WIDEST_NAME = 30;
const ORDER_COLUMN = 6;
const SIGN_COLUMN = 4.2;

/** Widths of the columns of one table, in millimetres of paper. */
export interface TableColumns {
  readonly name: number;
  readonly count: number;
  readonly size: number;
  readonly done: number;
  readonly total: number;
}

export function tableColumns(rows: readonly TableRow[]): TableColumns {
  const widest = (texts: readonly string[], head: string) =>
    Math.max(...[head, ...texts].map((text) => textWidth(text, LETTERS.table)));
  const name = Math.min(
    WIDEST_NAME,
    widest(
      rows.map((row) => row.name),
      'Part',
    ),
  );
  const count = widest(
    rows.map((row) => row.count),
    'Piece',
  );
  const size = widest(
    rows.map((row) => row.size),
    'Size',
  );
  const words = widest(
    rows.map((row) => row.done),
    'Do',
  );
  const alerts = rows.some((row) => row.alert !== null) ? SIGN_COLUMN : 0;
  const signs = rows.some((row) => row.action !== 'none') ? SIGN_COLUMN : 0;
  const done = signs + alerts === 0 ? 0 : signs + words + alerts;
  const total = ORDER_COLUMN + name + count + size + done + 4 * COLUMN_GAP;
  return { name, count, size, done, total };
}

export function tableHeight(rowCount: number): number {
  return HEAD_HEIGHT + rowCount * ROW_PITCH;
}

/** How many rows a table of this height holds. */
export function rowsOfHeight(height: number): number {
  return Math.floor((height - HEAD_HEIGHT) / ROW_PITCH);
}

/** The notes in lines of this width. */
export function noteLines(notes: readonly string[], width: number): readonly string[] {
  return notes.flatMap((note) => wrapText(note, LETTERS.table, width));
}

export function notesHeight(lines: readonly string[]): number {
  return lines.length === 0 ? 0 : 1.5 + lines.length * NOTE_PITCH;
}

/** One stretch of rows with its head. */
function drawTable(rows: readonly TableRow[], columns: TableColumns, frame: Frame): Item[] {
  const stops = columnStops(columns);
  const bottom = -tableHeight(rows.length);
  return [
    ...drawHead(columns, frame),
    line(
      'rule-strong',
      frame.at(0, -HEAD_HEIGHT + 0.6),
      frame.at(columns.total, -HEAD_HEIGHT + 0.6),
    ),
    ...rows.flatMap((row, i) => {
      const y = -HEAD_HEIGHT - (i + 0.5) * ROW_PITCH + 0.6;
      const rule = y - ROW_PITCH / 2;
      const cell = (x: number, maxWidth: number, text: string, anchor: 'start' | 'end') =>
        lettering(frame, x, y, text, {
          style: row.kind === 'piece' ? 'text' : 'text-soft',
          size: LETTERS.table,
          anchor,
          maxWidth,
        });
      return [
        ...(i < rows.length - 1 || bottom === 0
          ? [line('rule', frame.at(0, rule), frame.at(columns.total, rule))]
          : []),
        ...drawOrder(row, frame, y),
        ...cell(stops.name, columns.name + 0.1, row.name, 'start'),
        ...cell(stops.count, columns.count + 0.1, row.count, 'start'),
        ...cell(stops.size, columns.size + 0.1, row.size, 'start'),
        ...drawDone(row, columns, frame, { x: stops.done, y }),
      ];
    }),
  ];
}

/** Stretches of rows side by side, downwards from the upper left corner at (0, 0) of the frame. */
export function drawStretches(
  stretches: readonly (readonly TableRow[])[],
  columns: TableColumns,
  frame: Frame,
): Item[] {
  return stretches.flatMap((rows, i) => {
    const corner = frame.at(i * (columns.total + TABLE_GAP), 0);
    return drawTable(rows, columns, frameAt(corner, frame.unit));
  });
}

export function drawNotes(lines: readonly string[], width: number, frame: Frame): Item[] {
  return lines.flatMap((text, i) =>
    lettering(frame, 0, -1.5 - (i + 0.5) * NOTE_PITCH, text, {
      style: 'text',
      size: LETTERS.table,
      anchor: 'start',
      maxWidth: width,
    }),
  );
}

function columnStops(columns: TableColumns): {
  name: number;
  count: number;
  size: number;
  done: number;
} {
  const name = ORDER_COLUMN + COLUMN_GAP;
  const count = name + columns.name + COLUMN_GAP;
  const size = count + columns.count + COLUMN_GAP;
  return { name, count, size, done: size + columns.size + COLUMN_GAP };
}

function drawHead(columns: TableColumns, frame: Frame): Item[] {
  const stops = columnStops(columns);
  const y = -HEAD_HEIGHT / 2 + 0.5;
  const head = (x: number, text: string) =>
    lettering(frame, x, y, text, {
      style: 'text-soft',
      size: LETTERS.table,
      anchor: 'start',
      maxWidth: 60,
    });
  return [
    ...head(0, 'Cut'),
    ...head(stops.name, 'Part'),
    ...head(stops.count, 'Piece'),
    ...head(stops.size, 'Size'),
    ...(columns.done === 0 ? [] : head(stops.done, 'Do')),
  ];
}

function drawOrder(row: TableRow, frame: Frame, y: number): Item[] {
  const small = frameAt(frame.at(ORDER_COLUMN / 2, y), frame.unit * 0.86);
  return orderBadge(small, { x: 0, y: 0 }, row.order, row.kind);
}

function drawDone(
  row: TableRow,
  columns: TableColumns,
  frame: Frame,
  start: { x: number; y: number },
): Item[] {
  const items: Item[] = [];
  let { x } = start;
  if (row.action !== 'none') {
    const sign = frameAt(frame.at(x + 1.6, start.y), frame.unit * 0.9);
    items.push(...actionSign(sign, { x: 0, y: 0 }, row.action));
    x += SIGN_COLUMN;
  }
  const how = { style: 'text', size: LETTERS.table, anchor: 'start' } as const;
  items.push(...lettering(frame, x, start.y, row.done, { ...how, maxWidth: columns.done + 0.1 }));
  if (row.alert !== null) {
    const at = frame.at(x + textWidth(row.done, LETTERS.table) + 2.6, start.y);
    items.push(...alertSign(frameAt(at, frame.unit * 0.9), { x: 0, y: 0 }, row.alert));
  }
  return items;
}
