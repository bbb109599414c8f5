/** Null is a figure that there is not. */
export type Cell = string | null;

/** The first column is to the left, all others to the right. */
export interface Table {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly Cell[])[];
  /** Sentences below it. */
  readonly notes: readonly string[];
}

export const MOST_COLUMNS = 80;
const NONE = '-';

/** Dashes and colons under a column of Markdown. */
const LEAST_RULE = 3;

/** For a terminal of 80 columns. */
export function plainTable(table: Table): string {
  const { columns, rows } = aligned(table, 0);
  const rule = columns.map((cell) => '-'.repeat(cell.length));
  const lines = [columns, rule, ...rows].map((cells) => cells.join('  ').trimEnd());
  return [...wrapped(table.title), '', ...lines, ...table.notes.flatMap(wrapped), ''].join('\n');
}

/** As the formatter of the project would have it. */
export function markdownTable(table: Table): string {
  const { columns, rows } = aligned(table, LEAST_RULE);
  const rule = columns.map(({ length }, k) => (k === 0 ? '-' : ':').padStart(length, '-'));
  const lines = [columns, rule, ...rows].map((cells) => `| ${cells.join(' | ')} |`);
  return [`## ${table.title}`, lines.join('\n'), table.notes.join(' ')]
    .filter((part) => part !== '')
    .join('\n\n');
}

/** Columns and rows with their cells filled up to the width of the column. */
function aligned({ columns, rows }: Table, least: number) {
  const lines = [columns, ...rows].map((line) => line.map((cell) => cell ?? NONE));
  const widths = columns.map((_, k) => Math.max(least, ...lines.map((line) => line[k]!.length)));
  const [head = [], ...body] = lines.map((line) =>
    line.map((cell, k) => (k === 0 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!))),
  );
  return { columns: head, rows: body };
}

/** A whole number with its thousands parted. */
export function whole(value: number): string {
  return Math.round(value)
    .toString()
    .replace(/\B(?=(\d{3})+$)/g, ',');
}

/** With a sign, for a difference. */
export function signed(value: number): string {
  return value > 0 ? `+${whole(value)}` : whole(value);
}

export function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}

export function seconds(ms: number): string {
  return Number.isNaN(ms) ? NONE : (ms / 1000).toFixed(ms < 10_000 ? 2 : 1);
}

function wrapped(text: string): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last === undefined || last.length + 1 + word.length > MOST_COLUMNS) lines.push(word);
    else lines[lines.length - 1] = `${last} ${word}`;
  }
  return lines;
}
