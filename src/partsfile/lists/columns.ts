import { nearest } from '../nearest.ts';
import { quote } from '../visible.ts';
import { COLUMN_ROLES, type ColumnRole, folded, meaningOf } from './column-words.ts';
import type { Row } from './list-rows.ts';
import { type ListUnit, unitOfHeader } from './list-units.ts';

export interface Column {
  readonly role: ColumnRole;
  readonly index: number;
  /** What the header row has above it; empty where there is none. */
  readonly header: string;
  /** The unit that the header names, or null. */
  readonly unit: ListUnit | null;
  /** Whether it holds a size as it is sawn, without the bands of its edges. */
  readonly isCut: boolean;
}

export interface Columns {
  readonly byRole: ReadonlyMap<ColumnRole, Column>;
  /** The row that names them; null where options alone do. */
  readonly header: Row | null;
  /** Headers that nothing is taken from. */
  readonly unused: readonly string[];
}

export type ColumnsRead = { readonly columns: Columns } | { readonly faults: readonly string[] };

/** A title and an address may stand above the header, not more. */
const HEADER_ROWS = 50;

/** What a person says of a column: its role, and a header, a letter or a number. */
interface Wish {
  readonly role: ColumnRole;
  readonly what: string;
}

/**
 * Finds the row that names the columns and what each holds. `asked` is the text of the option, such as `length=L,count=D`; what it says goes before the words.
 */
export function findColumns(rows: readonly Row[], asked: string | null): ColumnsRead {
  const wishes = asked === null ? [] : readWishes(asked);
  const faults = wishes.filter((wish) => typeof wish === 'string');
  if (faults.length > 0) return { faults };
  const sound = wishes.filter((wish) => typeof wish !== 'string');
  const header = bestHeader(rows.slice(0, HEADER_ROWS), sound);
  return assign(header, sound);
}

/** How likely these rows are cut in the right places: how many columns their header names. */
export function headerWorth(rows: readonly Row[], asked: string | null): number {
  const wishes = (asked === null ? [] : readWishes(asked)).filter(
    (wish) => typeof wish !== 'string',
  );
  const header = bestHeader(rows, wishes);
  return header === null ? 0 : headerScore(header, wishes);
}

function readWishes(asked: string): readonly (Wish | string)[] {
  const roles = new Set<string>();
  return asked.split(',').map((item) => {
    const [, key = '', what = ''] = /^\s*([^=]*?)\s*=\s*(.*?)\s*$/.exec(item) ?? [];
    const role = COLUMN_ROLES.find((each) => each === key.toLowerCase());
    if (key === '' || what === '')
      return `--columns takes what a column is and where, such as length=L,width=C, not ${quote(item)}`;
    if (role === undefined) {
      const near = nearest(key, COLUMN_ROLES);
      return `--columns has no ${quote(key)}: ${near === null ? `possible are ${COLUMN_ROLES.join(', ')}` : `did you mean ${near}?`}`;
    }
    if (roles.has(role)) return `--columns says ${role} twice`;
    roles.add(role);
    return { role, what };
  });
}

function bestHeader(rows: readonly Row[], wishes: readonly Wish[]): Row | null {
  let best: Row | null = null;
  let most = 0;
  for (const row of rows) {
    const score = headerScore(row, wishes);
    if (most < score) [best, most] = [row, score];
  }
  return best;
}

/** Roles that make a row of the list a header rather than a part. */
const TELLING: readonly ColumnRole[] = ['length', 'width', 'size', 'height', 'depth'];

/** 0 where the row names no columns. */
function headerScore({ cells }: Row, wishes: readonly Wish[]): number {
  const named = wishes.filter(
    ({ what }) => !isPosition(what) && cells.some((cell) => isHeader(cell, what)),
  ).length;
  return named * 100 + headingWords(cells);
}

/** A cell that is a number, which no header is. */
const NUMBER = /^\d[\d.,/ -]*(?:\D{1,2})?$/;

/** How many columns the cells name, as words for columns do; 0 where they are a part's or a title's. */
export function headingWords(cells: readonly string[]): number {
  if (cells.some((cell) => NUMBER.test(cell))) return 0;
  const roles = new Set(cells.map((cell) => meaningOf(unitOfHeader(cell).rest)?.role));
  roles.delete(undefined);
  return roles.size >= 2 && TELLING.some((role) => roles.has(role)) ? roles.size : 0;
}

/** Whether a row has numbers as a part has its sizes. */
export function hasSizes(cells: readonly string[]): boolean {
  return cells.filter((cell) => NUMBER.test(cell)).length >= 2;
}

function isHeader(cell: string, what: string): boolean {
  if (cell === what || unitOfHeader(cell).rest === what) return true;
  const plain = folded(what);
  return plain !== '' && [cell, unitOfHeader(cell).rest].some((each) => folded(each) === plain);
}

/** `C` or `3`, as a spreadsheet and as people count columns. */
function isPosition(what: string): boolean {
  return /^([a-z]{1,2}|\d{1,3})$/i.test(what);
}

function positionOf(what: string): number {
  if (/^\d+$/.test(what)) return Number(what) - 1;
  return [...what.toUpperCase()].reduce((sum, c) => sum * 26 + c.charCodeAt(0) - 64, 0) - 1;
}

/** The letters of a column, as spreadsheets have them. */
export function columnLetters(index: number): string {
  const first = Math.floor(index / 26);
  const last = String.fromCharCode(65 + (index % 26));
  return first === 0 ? last : columnLetters(first - 1) + last;
}

/** `C "Länge (mm)"`, or the letter alone where there is no header. */
export function columnName({ index, header }: Pick<Column, 'index' | 'header'>): string {
  return header === '' ? columnLetters(index) : `${columnLetters(index)} ${quote(header)}`;
}

function assign(header: Row | null, wishes: readonly Wish[]): ColumnsRead {
  const cells = header?.cells ?? [];
  const byRole = new Map<ColumnRole, Column>();
  const faults: string[] = [];
  for (const { role, what } of wishes) {
    const found = indexOf(cells, what);
    if (found === null) faults.push(noColumn(what, cells));
    else byRole.set(role, columnAt(role, found, cells));
  }
  faults.push(...namedTwice([...byRole.values()]));
  const taken = new Set([...byRole.values()].map(({ index }) => index));
  for (const { role, index } of byWords(cells))
    if (!byRole.has(role) && !taken.has(index)) {
      byRole.set(role, columnAt(role, index, cells));
      taken.add(index);
    }
  if (faults.length > 0) return { faults };
  const sized = withSides(byRole);
  const used = new Set([...sized.values()].map(({ index }) => index));
  const unused = cells.flatMap((cell, index) =>
    cell === '' || used.has(index) ? [] : [columnName({ index, header: cell })],
  );
  return { columns: { byRole: sized, header, unused } };
}

/** One column can hold one thing only. */
function namedTwice(columns: readonly Column[]): readonly string[] {
  return columns.flatMap((column, i) => {
    const first = columns.findIndex(({ index }) => index === column.index);
    if (first === i) return [];
    const roles = `${columns[first]!.role} and ${column.role}`;
    return [`--columns takes column ${columnName(column)} for both ${roles}`];
  });
}

/** The exact header first, as L and l may be two columns. */
function indexOf(cells: readonly string[], what: string): number | null {
  const exact = cells.indexOf(what);
  const index = exact >= 0 ? exact : cells.findIndex((cell) => isHeader(cell, what));
  if (index >= 0) return index;
  return isPosition(what) && positionOf(what) >= 0 ? positionOf(what) : null;
}

/** As many are named where another one was meant. */
const MOST_HEADERS = 6;

function noColumn(what: string, cells: readonly string[]): string {
  const named = cells.filter((cell) => cell !== '').map(quote);
  const headers = named.slice(0, MOST_HEADERS);
  if (headers.length < named.length) headers.push(`and ${named.length - headers.length} more`);
  const has =
    headers.length === 0
      ? 'no row names columns: say letters or numbers'
      : `the list has ${headers.join(', ')}`;
  return `--columns: there is no column ${quote(what)}; ${has}`;
}

function columnAt(role: ColumnRole, index: number, cells: readonly string[]): Column {
  const header = cells[index] ?? '';
  const { unit, rest } = unitOfHeader(header);
  return { role, index, header, unit, isCut: meaningOf(rest)?.isCut ?? false };
}

/** The columns that their words name, the surest of each role first; finished sizes before sawn ones. */
function byWords(cells: readonly string[]): readonly { role: ColumnRole; index: number }[] {
  return cells
    .flatMap((cell, index) => {
      const meaning = meaningOf(unitOfHeader(cell).rest);
      return meaning === null ? [] : [{ ...meaning, index }];
    })
    .toSorted((a, b) => Number(a.isCut) - Number(b.isCut) || a.rank - b.rank || a.index - b.index);
}

/**
 * A list may call its sizes heights and depths: the first two of length, height, width and depth are the sides of the part. Beside a length and a width a height or
 * depth is the thickness, where no other column is.
 */
function withSides(found: ReadonlyMap<ColumnRole, Column>): ReadonlyMap<ColumnRole, Column> {
  const byRole = new Map(found);
  const order = (['length', 'width'] as const).every((role) => found.has(role))
    ? (['length', 'width', 'height', 'depth'] as const)
    : (['length', 'height', 'width', 'depth'] as const);
  const sides = order.flatMap((role) => found.get(role) ?? []);
  for (const role of order) byRole.delete(role);
  const [length, width, third] = sides;
  if (length !== undefined) byRole.set('length', { ...length, role: 'length' });
  if (width !== undefined) byRole.set('width', { ...width, role: 'width' });
  if (third !== undefined && !found.has('thickness'))
    byRole.set('thickness', { ...third, role: 'thickness' });
  return byRole;
}
