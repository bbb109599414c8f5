// Arranges sheet, legend and table so that the sheet comes out as large as an A4 page in landscape lets it.
// Idea: the coarser the scale, the smaller the sheet and the more room for the table. Try scales from fine to coarse, and at each a few forms
//   (table below or beside, legend under or beside), and take the first that fits. Where none does, the table goes to pages of its own.
// Source: our own.
// Cost: a few hundred trials a sheet, each linear in its pieces.
// Degenerate cases: a sheet smaller than the page keeps a scale of 1 : 1; a narrow one is given the width that its title needs.
import { toMm } from '../model/units.ts';
import {
  LEGEND_PITCH,
  type LegendEntry,
  legendColumnWidth,
  legendEntries,
  legendRows,
} from './legend.ts';
import { sheetNotes, sheetRows, type TableRow } from './sheet-table.ts';
import type { SheetView } from './sheet-view.ts';
import {
  noteLines,
  notesHeight,
  rowsOfHeight,
  TABLE_GAP,
  type TableColumns,
  tableColumns,
  tableHeight,
} from './table-drawing.ts';
import { CHART } from './vacuum-chart.ts';

/** Room on an A4 page in landscape less its margins and foot, in millimetres. */
export const PAGE = { width: 281, height: 188 };

/** Room around the parts of the drawing, in millimetres of paper. */
export const MARGINS = {
  edge: 2,
  title: 13.5,
  aboveSheet: 6.5,
  leftOfSheet: 8,
  belowSheet: 10.5,
} as const;

/** Lengths in millimetres of paper; the sheet's lower-left corner is the origin, `x` and `y` are upper left corners. */
export interface Arrangement {
  /** Millimetres of the drawing for one of paper. */
  readonly unit: number;
  readonly sheetLength: number;
  readonly sheetWidth: number;
  readonly legend: {
    readonly rows: readonly (readonly LegendEntry[])[];
    readonly x: number;
    readonly y: number;
  };
  readonly table: TableArrangement & { readonly x: number; readonly y: number };
  readonly notes: { readonly lines: readonly string[]; readonly x: number; readonly y: number };
  /** Null where there is nothing to show. */
  readonly chart: { readonly x: number; readonly y: number } | null;
  /** Whole drawing, margins included. */
  readonly totalWidth: number;
  readonly totalHeight: number;
  readonly tableApart: boolean;
}

/** The rows in stretches side by side. */
interface TableArrangement {
  readonly stretches: readonly (readonly TableRow[])[];
  readonly columns: TableColumns;
  readonly width: number;
  readonly height: number;
}

/** What does not change from one trial to the next. */
interface Contents {
  readonly view: SheetView;
  readonly rows: readonly TableRow[];
  readonly columns: TableColumns;
  readonly notes: readonly string[];
  readonly legend: readonly LegendEntry[];
}

interface Form {
  readonly table: 'below' | 'beside' | 'apart';
  readonly legend: 'under' | 'right';
}

/** In the order in which they are tried. */
const ON_ONE_PAGE: readonly Form[] = [
  { table: 'below', legend: 'right' },
  { table: 'below', legend: 'under' },
  { table: 'beside', legend: 'under' },
];
const APART: Form = { table: 'apart', legend: 'under' };
const LEAST_WIDTH = 110;
const BODY_GAP = 3;
/** How much smaller a sheet may be drawn so that its table stays on its page. */
const MOST_SHRINKING = 1.5;
const COARSEST = 60;
/** How long the longest sheet is beside its own letters, in millimetres of paper. */
const ALONE_WIDTH = 190;
/** A stretch is not begun before the one beside it has this many rows. */
const LEAST_ROWS = 4;

/** The arrangement that fits one page; the table apart where none does. */
export function arrangeForPage(view: SheetView): Arrangement {
  const contents = readContents(view);
  const units = scales(toMm(view.stock.length));
  const apart = firstThatFits(contents, units, [APART]) ?? arrange(contents, COARSEST, APART);
  const together = units.filter((unit) => unit <= apart.unit * MOST_SHRINKING);
  return firstThatFits(contents, together, ON_ONE_PAGE) ?? apart;
}

/** At a scale that was asked for, which may take more room than the page has. */
export function arrangeAt(view: SheetView, unit: number, room: typeof PAGE): Arrangement {
  const contents = readContents(view);
  return firstThatFits(contents, [unit], ON_ONE_PAGE, room) ?? arrange(contents, unit, APART);
}

/** As for a page, but a table that does not fit goes beside the sheet all the same: a screen can scroll. */
export function arrangeForScreen(view: SheetView): Arrangement {
  const page = arrangeForPage(view);
  return page.tableApart
    ? arrange(readContents(view), page.unit, { table: 'beside', legend: 'under' })
    : page;
}

/** The sheet and the legend under it, for a page that says the rest in words of its own; letters a little larger than on paper. */
export function arrangeAlone(view: SheetView): Arrangement {
  const contents = { ...readContents(view), notes: [], view: { ...view, vacuum: null } };
  const unit = Math.max(arrangeForPage(view).unit, toMm(view.stock.length) / ALONE_WIDTH);
  const arrangement = arrange(contents, unit, APART);
  return { ...arrangement, totalHeight: arrangement.totalHeight - MARGINS.title };
}

function readContents(view: SheetView): Contents {
  const rows = sheetRows(view);
  return {
    view,
    rows,
    columns: tableColumns(rows),
    notes: sheetNotes(view),
    legend: legendEntries(view),
  };
}

/** From the finest that may fit the page, by halves. */
function scales(length: number): readonly number[] {
  const first = Math.max(2, Math.floor((2 * length) / PAGE.width));
  return Array.from({ length: 2 * COARSEST }, (_, i) => (first + i) / 2);
}

function firstThatFits(
  contents: Contents,
  units: readonly number[],
  forms: readonly Form[],
  room = PAGE,
): Arrangement | null {
  for (const unit of units) {
    for (const form of forms) {
      const trial = arrange(contents, unit, form);
      if (trial.totalWidth <= room.width && trial.totalHeight <= room.height) return trial;
    }
  }
  return null;
}

function arrange(contents: Contents, unit: number, form: Form): Arrangement {
  const { stock, vacuum } = contents.view;
  const sheetLength = toMm(stock.length) / unit;
  const sheetWidth = toMm(stock.width) / unit;
  const left = -MARGINS.leftOfSheet;
  const sheetBlock = Math.max(MARGINS.leftOfSheet + sheetLength, LEAST_WIDTH);
  const onRight = form.legend === 'right';
  const beside = form.table === 'beside';
  const chart = vacuum === null ? NO_CHART : CHART;
  const rows = legendRows(contents.legend, onRight ? 0 : sheetBlock);
  const legendHeight = rows.length * LEGEND_PITCH;
  const column = Math.max(legendColumnWidth(contents.legend), chart.width);
  const upper = sheetBlock + (onRight ? TABLE_GAP + column : 0);
  const body = onRight
    ? Math.max(sheetWidth + MARGINS.belowSheet, legendHeight + BODY_GAP + chart.height)
    : sheetWidth + MARGINS.belowSheet + legendHeight;
  const underBody = sheetWidth - body - BODY_GAP;
  const table = arrangeTable(contents, form.table, body);
  const wide = beside ? upper : Math.max(upper, table.width);
  const foot = arrangeFoot(contents, wide, onRight || beside ? NO_CHART : chart);
  const footY = underBody - (beside ? 0 : table.height);
  const under = (beside ? 0 : table.height) + foot.height;
  const withUnder = body + (under === 0 ? 0 : BODY_GAP + under);
  const rightX = left + upper + TABLE_GAP;
  const columnX = left + sheetBlock + TABLE_GAP;
  const underLegend = { x: columnX, y: sheetWidth - legendHeight - BODY_GAP };
  const underTable = { x: rightX, y: sheetWidth - table.height - BODY_GAP };
  const inFoot = { x: left + wide - chart.width, y: footY - BODY_GAP };
  const chartAt = onRight ? underLegend : beside ? underTable : inFoot;
  return {
    unit,
    sheetLength,
    sheetWidth,
    legend: onRight
      ? { rows, x: columnX, y: sheetWidth }
      : { rows, x: left, y: -MARGINS.belowSheet },
    table: beside ? { ...table, x: rightX, y: sheetWidth } : { ...table, x: left, y: underBody },
    notes: { lines: foot.notes, x: left, y: footY },
    chart: vacuum === null ? null : chartAt,
    totalWidth:
      2 * MARGINS.edge + (beside ? upper + TABLE_GAP + Math.max(table.width, chart.width) : wide),
    totalHeight:
      2 * MARGINS.edge +
      MARGINS.title +
      MARGINS.aboveSheet +
      (beside ? Math.max(withUnder, table.height + BODY_GAP + chart.height) : withUnder),
    tableApart: form.table === 'apart',
  };
}

const NO_CHART = { width: 0, height: 0 } as const;

/** The notes, and beside them the chart where it has no place elsewhere. */
function arrangeFoot(
  { notes }: Contents,
  width: number,
  chart: { readonly width: number; readonly height: number },
): { readonly notes: readonly string[]; readonly height: number } {
  const hasChart = chart.width > 0;
  const lines = noteLines(notes, width - (hasChart ? chart.width + TABLE_GAP : 0));
  const height = Math.max(notesHeight(lines), hasChart ? BODY_GAP + chart.height : 0);
  return { notes: lines, height };
}

function arrangeTable(
  { rows, columns }: Contents,
  place: Form['table'],
  bodyHeight: number,
): TableArrangement {
  if (place === 'apart') return { stretches: [], columns, width: 0, height: 0 };
  const stretches = inStretches(rows, stretchCount(rows, columns, place, bodyHeight));
  const width = stretches.length * (columns.total + TABLE_GAP) - TABLE_GAP;
  return { stretches, columns, width, height: tableHeight(stretches[0]?.length ?? 0) };
}

/** Below: as many side by side as the page is wide. Beside: one where a page holds it, else by the height of the sheet. */
function stretchCount(
  rows: readonly TableRow[],
  columns: TableColumns,
  place: 'below' | 'beside',
  height: number,
): number {
  if (place === 'below') {
    const wide = PAGE.width - 2 * MARGINS.edge;
    return Math.max(1, Math.floor((wide + TABLE_GAP) / (columns.total + TABLE_GAP)));
  }
  const page = PAGE.height - 2 * MARGINS.edge - MARGINS.title - MARGINS.aboveSheet;
  if (tableHeight(rows.length) <= page) return 1;
  return Math.ceil(rows.length / Math.max(10, rowsOfHeight(height)));
}

export function inStretches(
  rows: readonly TableRow[],
  count: number,
): readonly (readonly TableRow[])[] {
  const per = Math.max(LEAST_ROWS, Math.ceil(rows.length / count));
  return Array.from({ length: Math.ceil(rows.length / per) }, (_, i) =>
    rows.slice(i * per, (i + 1) * per),
  );
}
