/** A straight line or the chord of a curve, in points of the page. */
export interface PdfLine {
  readonly from: readonly [number, number];
  readonly to: readonly [number, number];
}

type Matrix = readonly [number, number, number, number, number, number];

/** Every stroked line of a page's content as it lies on the page, with the turns and stretches of its matrices (PDF 32000-1:2008, 8.3 and 8.5). */
export function pdfLines(content: string): readonly PdfLine[] {
  const lines: PdfLine[] = [];
  let matrix: Matrix = [1, 0, 0, 1, 0, 0];
  const kept: Matrix[] = [];
  let numbers: number[] = [];
  let at: readonly [number, number] = [0, 0];
  let start = at;
  let path: PdfLine[] = [];
  const place = (x = 0, y = 0): readonly [number, number] => {
    const [a, b, c, d, e, f] = matrix;
    return [a * x + c * y + e, b * x + d * y + f];
  };
  for (const token of content.replace(/\[.*?\] TJ/gs, '').split(/\s+/)) {
    if (/^-?[\d.]+$/.test(token)) {
      numbers.push(Number(token));
      continue;
    }
    const end = place(...numbers.slice(-2));
    if (token === 'q') kept.push(matrix);
    if (token === 'Q') matrix = kept.pop() ?? matrix;
    if (token === 'cm') matrix = product(numbers as unknown as Matrix, matrix);
    if (token === 'l' || token === 'c') path.push({ from: at, to: end });
    if (token === 'h') path.push({ from: at, to: start });
    if (token === 'm') start = end;
    if (token === 'm' || token === 'l' || token === 'c') at = end;
    if (token === 'h') at = start;
    if (token === 'S') lines.push(...path);
    if (/^(S|n|f\*?|W\*?)$/.test(token)) path = [];
    numbers = [];
  }
  return lines;
}

export function lineLength({ from, to }: PdfLine): number {
  return Math.hypot(to[0] - from[0], to[1] - from[1]);
}

function product([a, b, c, d, e, f]: Matrix, [A, B, C, D, E, F]: Matrix): Matrix {
  return [
    a * A + b * C,
    a * B + b * D,
    c * A + d * C,
    c * B + d * D,
    e * A + f * C + E,
    e * B + f * D + F,
  ];
}
