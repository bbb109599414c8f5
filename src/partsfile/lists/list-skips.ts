import { folded } from './column-words.ts';
import { type Columns, hasSizes, headingWords } from './columns.ts';
import type { ListTrouble } from './list-parts.ts';
import type { Row } from './list-rows.ts';

/** Rows that are no parts, by why; numbers as the spreadsheet has them. */
export interface Skipped {
  readonly above: readonly number[];
  readonly blank: readonly number[];
  readonly repeated: readonly number[];
  readonly totals: readonly number[];
}

/** The words by which a row of sums begins. */
const TOTAL =
  /^(grand total|total|totals|subtotal|sub total|sum|summe|zwischensumme|gesamt|gesamtsumme|somme|sous total|totale|subtotale|totaal|subtotaal|suma|razem|soma|subtotais|totais)\b/;

/** What the rows of a list are. */
export interface Sorted {
  /** Those that may be parts. */
  readonly parts: readonly Row[];
  readonly skipped: Skipped;
  /** Rows that look like parts where none can be read. */
  readonly troubles: readonly ListTrouble[];
}

/** Parts the rows that may be parts from all others. Blank rows at the end of the list are not worth a word. */
export function withoutOthers(rows: readonly Row[], { header, byRole }: Columns): Sorted {
  const parts: Row[] = [];
  const skipped = { above: [], blank: [], repeated: [], totals: [] } as Record<
    keyof Skipped,
    number[]
  >;
  const troubles: ListTrouble[] = [];
  const first = header === null ? -1 : rows.indexOf(header);
  const isOther = (row: Row) =>
    header !== null && !isSame(row, header) && headingWords(row.cells) > 2;
  const other = rows.findIndex((row, i) => i > first && isOther(row));
  const end = other < 0 ? rows.findLastIndex((row) => !isBlank(row)) + 1 : other;
  rows.slice(0, end).forEach((row, i) => {
    if (i === first) return;
    if (i < first && hasSizes(row.cells)) troubles.push(troubleOf(row, ABOVE));
    else if (i < first) skipped.above.push(row.number);
    else if (row.fault !== null) parts.push(row);
    else if (isBlank(row)) skipped.blank.push(row.number);
    else if (header !== null && isSame(row, header)) skipped.repeated.push(row.number);
    else if (isTotal(row, byRole)) skipped.totals.push(row.number);
    else parts.push(row);
  });
  if (other >= 0) troubles.push(troubleOf(rows[other]!, OTHER_HEADER));
  return { parts, skipped, troubles };
}

const ABOVE = 'it stands above the header, though it has numbers as a part has';
const OTHER_HEADER =
  'a header with other columns: it and all below was not read; make it a list of its own';

function troubleOf({ number, cells }: Row, why: string): ListTrouble {
  return { row: number, column: null, why, cells, stuff: null };
}

function isBlank({ cells }: Row): boolean {
  return cells.every((cell) => cell === '');
}

function isSame({ cells }: Row, header: Row): boolean {
  const most = Math.max(cells.length, header.cells.length);
  for (let i = 0; i < most; i++) if ((cells[i] ?? '') !== (header.cells[i] ?? '')) return false;
  return true;
}

/** A part may be named Total as well: then it has its size. */
function isTotal({ cells }: Row, columns: Columns['byRole']): boolean {
  const sized = (['length', 'width', 'size'] as const).flatMap((role) => columns.get(role) ?? []);
  if (sized.every(({ index }) => (cells[index] ?? '') !== '')) return false;
  return TOTAL.test(folded(cells.find((cell) => cell !== '') ?? ''));
}

/** `rows 3, 7 and 9 to 12`. */
export function spans(rows: readonly number[]): string {
  const runs: [number, number][] = [];
  for (const row of rows) {
    const last = runs.at(-1);
    if (last !== undefined && last[1] + 1 === row) last[1] = row;
    else runs.push([row, row]);
  }
  const shown = runs
    .slice(0, 8)
    .map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`));
  const more = runs.length - shown.length;
  const listed = more > 0 ? `${shown.join(', ')} and ${more} more` : shown.join(', ');
  return `${rows.length === 1 ? 'row' : 'rows'} ${listed}`;
}

/** What was passed over, in words; empty where nothing was. */
export function skippedWords({ above, blank, repeated, totals }: Skipped): readonly string[] {
  return [
    ...(above.length > 0 ? [`${spans(above)} above the header`] : []),
    ...(blank.length > 0 ? [`${spans(blank)} (blank)`] : []),
    ...(repeated.length > 0 ? [`${spans(repeated)} (the header again)`] : []),
    ...(totals.length > 0 ? [`${spans(totals)} (sums)`] : []),
  ];
}
