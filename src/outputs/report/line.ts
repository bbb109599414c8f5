/** What a line is about, for the caller to colour: nothing here knows a terminal. */
export type Tone = 'plain' | 'heading' | 'good' | 'care' | 'bad' | 'quiet';

/** A line of text of at most 80 columns. */
export interface Line {
  readonly tone: Tone;
  readonly text: string;
}

export const WIDTH = 80;

/** `text` as lines of at most 80 columns, broken at spaces; the first starts with `first`, the others with `indent`. */
export function wrap(tone: Tone, text: string, indent = '', first = ''): readonly Line[] {
  const lines: string[] = [];
  let line = first;
  for (const word of text.split(' ')) {
    const longer = line.trim() === '' ? `${line}${word}` : `${line} ${word}`;
    if (longer.length > WIDTH && line.trim() !== '') {
      lines.push(line);
      line = `${indent}${word}`;
    } else {
      line = longer;
    }
  }
  return [...lines, line].map((each) => ({ tone, text: each }));
}

/**
 * Rows as aligned columns, to the right where `right` says so; cells that are too long are shortened, those of the column
 * `giving` as far as the width of a line needs besides.
 */
export function table(
  rows: readonly (readonly string[])[],
  columns: readonly { readonly most: number; readonly right: boolean }[],
  giving = 0,
): readonly string[] {
  const widths = columns.map(({ most }, i) =>
    Math.min(most, Math.max(...rows.map((row) => [...(row[i] ?? '')].length))),
  );
  const whole = widths.reduce((sum, width) => sum + width + 2, -2);
  widths[giving] = widths[giving]! - Math.max(0, whole - WIDTH);
  return rows.map((row) =>
    columns
      .map(({ right }, i) => {
        const cell = shorten(row[i] ?? '', widths[i]!);
        const pad = ' '.repeat(widths[i]! - [...cell].length);
        return right ? pad + cell : cell + pad;
      })
      .join('  ')
      .trimEnd(),
  );
}

/** `text` cut to `most` characters, with an ellipsis where something was cut. */
export function shorten(text: string, most: number): string {
  const characters = [...text];
  return characters.length <= most ? text : `${characters.slice(0, most - 1).join('')}…`;
}
