import { fromMm, UNITS_PER_INCH } from './units.ts';

/** Labels on sheets of paper, in rows and columns; lengths from the upper left corner of the sheet as it is read. */
export interface LabelSheet {
  readonly kind: 'sheet';
  readonly paper: LabelSize;
  readonly columns: number;
  readonly rows: number;
  readonly label: LabelSize;
  /** From the left edge of a label to that of the next, and from top edge to top edge. */
  readonly pitch: LabelSize;
  readonly left: number;
  readonly top: number;
}

/** Labels one behind the other on a roll: each is a page of its own. */
export interface LabelRoll {
  readonly kind: 'roll';
  readonly label: LabelSize;
}

export type LabelGrid = LabelSheet | LabelRoll;

export interface LabelSize {
  readonly width: number;
  readonly height: number;
}

export type LabelPaper = 'a4' | 'letter';

export const LABEL_PAPERS: Readonly<Record<LabelPaper, LabelSize>> = {
  a4: { width: fromMm(210), height: fromMm(297) },
  letter: { width: 8.5 * UNITS_PER_INCH, height: 11 * UNITS_PER_INCH },
};

/** The smallest label that name, number and size can be read on, and the largest paper. */
export const LEAST_LABEL: LabelSize = { width: fromMm(20), height: fromMm(10) };
export const LARGEST_PAPER = fromMm(1000);

/** A grid as it is sold, known by its paper and the number of its labels. */
interface KnownGrid {
  readonly paper: LabelPaper;
  readonly columns: number;
  readonly rows: number;
  readonly label: LabelSize;
  /** Between two columns; rows follow one another without a gap. */
  readonly gap: number;
}

/** Usual measures of label sheets; the first of each paper is taken where the file says nothing. Common practice, no source. */
export const KNOWN_GRIDS: readonly KnownGrid[] = [
  known('a4', 3, 8, 63.5, 33.9, 2.5),
  known('a4', 3, 7, 63.5, 38.1, 2.5),
  known('a4', 2, 7, 99.1, 38.1, 2.5),
  known('a4', 2, 4, 99.1, 67.7, 2.5),
  known('a4', 4, 10, 48.5, 25.4, 0),
  known('a4', 5, 13, 38.1, 21.2, 2.5),
  known('letter', 3, 10, 66.675, 25.4, 3.175),
  known('letter', 2, 10, 101.6, 25.4, 4.7625),
  known('letter', 2, 5, 101.6, 50.8, 4.7625),
  known('letter', 2, 3, 101.6, 84.666_625, 4.7625),
];

function known(
  paper: LabelPaper,
  columns: number,
  rows: number,
  width: number,
  height: number,
  gap: number,
): KnownGrid {
  const label = { width: fromMm(width), height: fromMm(height) };
  return { paper, columns, rows, label, gap: fromMm(gap) };
}

/** The usual grid of a paper, or the one with so many columns and rows; null where none is known. */
export function knownGrid(
  paper: LabelPaper,
  counts: Pick<LabelSheet, 'columns' | 'rows'> | null,
): LabelSheet | null {
  const found = KNOWN_GRIDS.find(
    (grid) =>
      grid.paper === paper &&
      (counts === null || (grid.columns === counts.columns && grid.rows === counts.rows)),
  );
  if (found === undefined) return null;
  const { columns, rows, label, gap } = found;
  const pitch = { width: label.width + gap, height: label.height };
  return centredGrid({ paper: LABEL_PAPERS[paper], columns, rows, label, pitch });
}

/** The grid in the middle of its paper. */
export function centredGrid(grid: Omit<LabelSheet, 'kind' | 'left' | 'top'>): LabelSheet {
  const { width, height } = extentOf(grid);
  const left = Math.round((grid.paper.width - width) / 2);
  const top = Math.round((grid.paper.height - height) / 2);
  return { kind: 'sheet', ...grid, left, top };
}

/** From the left edge of the first label to the right edge of the last, and so downwards. */
export function extentOf({
  columns,
  rows,
  label,
  pitch,
}: Pick<LabelSheet, 'columns' | 'rows' | 'label' | 'pitch'>): LabelSize {
  return {
    width: (columns - 1) * pitch.width + label.width,
    height: (rows - 1) * pitch.height + label.height,
  };
}

export function labelsPerPage(grid: LabelGrid): number {
  return grid.kind === 'roll' ? 1 : grid.columns * grid.rows;
}
