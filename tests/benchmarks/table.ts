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

/** For a terminal of 80 columns. */
export function plainTable({ title, columns, rows, notes }: Table): string {
  const lines = [columns, ...rows.map((row) => row.map((cell) => cell ?? NONE))];
  const widths = columns.map((_, k) => Math.max(...lines.map((line) => (line[k] ?? '').length)));
  const drawn = lines.map((line) =>
    line
      .map((cell, k) => (k === 0 ? cell.padEnd(widths[k]!) : cell.padStart(widths[k]!)))
      .join('  ')
      .trimEnd(),
  );
  const rule = widths.map((width) => '-'.repeat(width)).join('  ');
  const [head = '', ...body] = drawn;
  return [...wrapped(title), '', head, rule, ...body, ...notes.flatMap(wrapped), ''].join('\n');
}

export function markdownTable({ title, columns, rows, notes }: Table): string {
  const line = (cells: readonly Cell[]) => `| ${cells.map((cell) => cell ?? NONE).join(' | ')} |`;
  const rule = columns.map((_, k) => (k === 0 ? '---' : '---:'));
  const table = [line(columns), line(rule), ...rows.map(line)].join('\n');
  return [`## ${title}`, table, ...(notes.length > 0 ? [notes.join(' ')] : [])].join('\n\n');
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
