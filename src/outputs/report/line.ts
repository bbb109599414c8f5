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

/**
 * As `table`, but nothing is cut: the first column gives way, and what is too long for it goes on below, a step further in. Each row is one line or more;
 * where it is the first column alone that is too long, the others stand beside its beginning.
 */
export function wholeTable(
  rows: readonly (readonly string[])[],
  isRight: readonly boolean[],
): readonly (readonly string[])[] {
  const widths = isRight.map((_, i) => Math.max(...rows.map((row) => [...(row[i] ?? '')].length)));
  const others = widths.slice(1).reduce((sum, width) => sum + width + 2, 0);
  widths[0] = Math.min(widths[0]!, Math.max(LEAST_FIRST, WIDTH - others));
  return rows.map(([first = '', ...cells]) => {
    const [start = '', ...more] = broken(first, widths[0]!, `${/^ */.exec(first)}  `);
    const line = [start, ...cells].map((cell, i) => {
      const pad = ' '.repeat(Math.max(0, widths[i]! - [...cell].length));
      return isRight[i] ? pad + cell : cell + pad;
    });
    return [line.join('  ').trimEnd(), ...more];
  });
}

const LEAST_FIRST = 16;

/** `text` in lines of at most `most` characters, all but the first after `indent`: broken at spaces, a longer word wherever it has to be. */
export function broken(text: string, most: number, indent = ''): readonly string[] {
  const lines: string[] = [];
  let rest = [...text];
  while (rest.length > most) {
    const start = /^ */.exec(rest.join(''))![0].length;
    const space = rest.lastIndexOf(' ', most);
    const end = space > start ? space : most;
    lines.push(rest.slice(0, end).join('').trimEnd());
    rest = [...indent, ...rest.slice(end).join('').trimStart()];
  }
  return [...lines, rest.join('')];
}

/** `text` cut to `most` characters, with an ellipsis where something was cut. */
export function shorten(text: string, most: number): string {
  const characters = [...text];
  return characters.length <= most ? text : `${characters.slice(0, most - 1).join('')}…`;
}
