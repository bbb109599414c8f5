/**
 * The 500 published instances of two-dimensional bin packing, made anew from their published rule.
 * Classes 1 to 6: Berkey & Wang 1987, "Two-dimensional finite bin-packing algorithms", J. Oper. Res. Soc. 38, 423-429.
 * Classes 7 to 10: Martello & Vigo 1998, "Exact solution of the two-dimensional finite bin packing problem", Management Science 44, 388-399.
 * Generator of Lodi, Martello & Vigo 1999: v becomes (7141 v + 54773) mod 259200, u = v / 259200 in single precision;
 * instance i of size n drops the first int(31.47 n i + 2000) + 1 numbers.
 */

export interface ClassInstance {
  readonly name: string;
  readonly side: number;
  readonly pieces: readonly { readonly width: number; readonly height: number }[];
}

export const CLASSES = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10] as const;
export const SIZES = [20, 40, 60, 80, 100] as const;

export function classInstance(group: number, size: number, number: number): ClassInstance {
  const draw = drawer(Math.floor(31.47 * size * number + 2000) + 1);
  const uniform = UNIFORM[group - 1];
  const pieces = Array.from({ length: size }, () =>
    uniform ? uniformPiece(draw, uniform.most) : mixedPiece(draw, group - 7),
  );
  // One published file differs from the rule, and the published file counts.
  if (group === 3 && size === 40 && number === 1) replaceOne(pieces);
  return { name: `class ${group}, ${size} pieces, ${number}`, side: uniform?.side ?? 100, pieces };
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const UNIFORM = [
  { side: 10, most: 10 },
  { side: 30, most: 10 },
  { side: 40, most: 35 },
  { side: 100, most: 35 },
  { side: 100, most: 100 },
  { side: 300, most: 100 },
];

function drawer(dropped: number): () => number {
  let v = 0;
  const draw = () => {
    v = (7141 * v + 54773) % 259200;
    return Math.fround(v / 259200);
  };
  for (let k = 0; k < dropped; k++) draw();
  return draw;
}

function uniformPiece(draw: () => number, most: number): Size {
  const height = Math.floor(Math.fround(most * draw())) + 1;
  const width = Math.floor(Math.fround(most * draw())) + 1;
  return { width, height };
}

/** Types 1 to 4 as widths and heights of a sheet of side 100; `favoured` is the one drawn with probability 0.7. */
function mixedPiece(draw: () => number, favoured: number): Size {
  const types = [
    { height: [1, 50], width: [66, 100] },
    { height: [66, 100], width: [1, 50] },
    { height: [50, 100], width: [50, 100] },
    { height: [1, 50], width: [1, 50] },
  ] as const;
  const u = draw();
  let reached = 0;
  let type = 0;
  for (; type < 3; type++) {
    reached += type === favoured ? 0.7 : 0.1;
    if (u <= reached) break;
  }
  const { height, width } = types[type] ?? types[3];
  return { height: between(draw, height), width: between(draw, width) };
}

function between(draw: () => number, [least, most]: readonly [number, number]): number {
  return Math.floor(Math.fround((most - least + 1) * draw())) + least;
}

function replaceOne(pieces: Size[]): void {
  const at = pieces.findIndex(({ width, height }) => width === 7 && height === 6);
  pieces[at] = { width: 7, height: 5 };
}
