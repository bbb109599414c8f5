import { type Outline, readRectangle } from './outlines.ts';
import { child, type Field, isFlawed, itemsOf, textOf } from './tree.ts';
import type { Reading } from './values.ts';

/** The members of a matched set in their order; null after a problem. */
export function readMembers(
  part: Field,
  field: Field,
  reading: Reading,
): readonly Outline[] | null {
  if (isFlawed(field)) return null;
  const items = itemsOf(field);
  if (items.length < 2) {
    const message = `a matched set of ${items.length} is no set`;
    reading.report.error(field, 'set-direction', message, 'give two sizes or more, or use size');
    return null;
  }
  const outlines = items.map((item) => readRectangle(part, item, reading));
  return outlines.every((outline) => outline !== null) ? outlines : null;
}

/**
 * Which way the pieces follow one another: along their equal side they lie flush, so it is the other one. Equal pieces are
 * stacked along the second number, as drawer fronts are. `run` decides where it is given.
 */
export function rowAxis(
  part: Field,
  field: Field,
  outlines: readonly Outline[],
  { report }: Reading,
): 'x' | 'y' | null {
  const run = child(part, 'run');
  if (run !== null) return isFlawed(run) ? null : textOf(run) === 'first' ? 'x' : 'y';
  const [one] = outlines;
  if (outlines.every((o) => o.finishedWidth === one?.finishedWidth)) return 'y';
  if (outlines.every((o) => o.finishedHeight === one?.finishedHeight)) return 'x';
  const message = 'the sizes of the set have neither their first nor their second number in common';
  const hint = 'write run: first or run: second, the number along which they follow one another';
  report.error(field, 'set-direction', message, hint);
  return null;
}

/** The box of the whole row in the pieces' own coordinates, one spacing between them. */
export function rowSize(
  outlines: readonly Outline[],
  axis: 'x' | 'y',
  spacing: number,
): { readonly width: number; readonly height: number } {
  const gaps = (outlines.length - 1) * spacing;
  const widths = outlines.map((o) => o.width);
  const heights = outlines.map((o) => o.height);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, gaps);
  return axis === 'x'
    ? { width: sum(widths), height: Math.max(...heights) }
    : { width: Math.max(...widths), height: sum(heights) };
}
