import Papa from 'papaparse';
import type { ResourceLimits } from '../../model/resource-limits.ts';
import { raiseHint } from '../limit-fault.ts';

/** What stands between two cells, by the words of the option. */
export const SEPARATORS = { comma: ',', semicolon: ';', tab: '\t', bar: '|' } as const;
export type Separator = keyof typeof SEPARATORS;

/** One row as a spreadsheet counts them, from 1; its cells are in one line each, without blanks around. */
export interface Row {
  readonly number: number;
  readonly cells: readonly string[];
  /** Why its cells cannot be trusted; null where they can. */
  readonly fault: string | null;
}

export type RowsRead =
  | { readonly rows: readonly Row[]; readonly separator: Separator }
  | { readonly why: string };

const MOST_CELLS = 500;

/** Of a cell; what is longer is no number, and a note is cut shorter yet. */
const MOST_LETTERS = 5000;

/** A cell in marks takes two: beyond this the marks are noise, and each could cost a complaint of its own. */
const MOST_MARKS = 4_000_000;

/** The rows by which the separator is chosen. */
const HEAD_ROWS = 50;
const HEAD_LETTERS = 200_000;

/**
 * Cuts the text into rows. Without a `given` separator that one is taken for which `worth` of the first rows is highest; of equal ones that which cuts
 * most rows into more than one cell.
 */
export function readRows(
  text: string,
  given: Separator | null,
  worth: (head: readonly Row[]) => number,
  limits: ResourceLimits,
): RowsRead {
  if (MOST_MARKS < text.split('"', MOST_MARKS + 2).length - 1)
    return { why: `it has more than ${MOST_MARKS} quotation marks` };
  const { named, rest, above } = ownSeparator(text.trimEnd());
  const separator = given ?? named ?? bestSeparator(rest.slice(0, HEAD_LETTERS), worth);
  const rows = cut(rest, separator, limits.rows + 1, above);
  if (limits.rows < rows.length) return { why: tooManyRows(rest, limits) };
  return { rows, separator };
}

function tooManyRows(text: string, { rows }: ResourceLimits): string {
  const found = text.split('\n').length;
  return `it has about ${found} rows; the most is ${rows}: split it, or ${raiseHint('rows', found)}`;
}

/** Some spreadsheets write a first line such as `sep=;` that is no row of the list. */
function ownSeparator(text: string) {
  const [line, sign] = /^sep=(.)\n/.exec(text) ?? [];
  const names = Object.keys(SEPARATORS) as Separator[];
  const named = names.find((name) => SEPARATORS[name] === sign) ?? null;
  return line === undefined || named === null
    ? { named: null, rest: text, above: 0 }
    : { named, rest: text.slice(line.length), above: 1 };
}

function bestSeparator(head: string, worth: (head: readonly Row[]) => number): Separator {
  const names = Object.keys(SEPARATORS) as Separator[];
  const ranked = names.map((name) => {
    const rows = cut(head, name, HEAD_ROWS, 0);
    const severed = rows.filter(({ cells }) => cells.length > 1).length;
    return { name, worth: worth(rows), severed };
  });
  return ranked.toSorted((a, b) => b.worth - a.worth || b.severed - a.severed)[0]!.name;
}

/** Runs of blanks are one blank first, as the library looks through them again for every stray quotation mark. */
function cut(text: string, separator: Separator, most: number, above: number): readonly Row[] {
  const blanks = separator === 'tab' ? /[^\S\n\t]+/g : /[^\S\n]+/g;
  const { data, errors } = Papa.parse<string[]>(text.replace(blanks, ' '), {
    delimiter: SEPARATORS[separator],
    newline: '\n',
    preview: most,
  });
  const faults = new Map(errors.map(({ row, code }) => [row, MARK_FAULTS[code] ?? null]));
  return data.map((cells, i) => ({
    number: i + 1 + above,
    cells: cells.slice(0, MOST_CELLS).map(oneLine),
    fault: faults.get(i) ?? null,
  }));
}

function oneLine(cell: string): string {
  return cell.slice(0, MOST_LETTERS).replace(/\s+/g, ' ').trim();
}

const MARK_FAULTS: Readonly<Record<string, string>> = {
  MissingQuotes: 'a quotation mark is opened here and never closed, so all below is in it',
  InvalidQuotes: 'a quotation mark inside a cell in quotation marks is not doubled',
};
