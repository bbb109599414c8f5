import { type Random, seededRandom } from '../../src/packing/random.ts';

/** Sheets cut up at random: pieces that are known to fit so many sheets. Lengths in mm. */
export interface Planted {
  readonly length: number;
  readonly width: number;
  readonly sheets: number;
  readonly pieces: readonly Size[];
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const SHEETS = [
  [2440, 1220],
  [2800, 2070],
  [1525, 1525],
] as const;
const MOST_PIECES = 60;
const LEAST_SIDE = 60;

/**
 * One to six sheets, up to 60 pieces, cut from edge to edge or in pinwheels of five. Then pieces are dropped or made smaller until each sheet holds 92 %:
 * the area alone proves that no sheet can be saved. Some pieces are drawn turned.
 */
export function plantedSheets(seed: number, waste = 0.08): Planted {
  const random = seededRandom(seed);
  const [length, width] = oneOf(random, SHEETS);
  const sheets = between(random, 1, 6);
  const most = Math.min(25, Math.floor(MOST_PIECES / sheets));
  const pieces = Array.from({ length: sheets }, () => {
    const cut = cutUp({ width: length, height: width }, between(random, 4, most), random);
    return wasted(cut, Math.floor(waste * length * width), random);
  }).flat();
  const drawn = pieces.map((piece) => (random() < 0.5 ? turned(piece) : piece));
  return { length, width, sheets, pieces: shuffled(drawn, random) };
}

/** Cuts one large piece after another until there are `count`, or no more can be cut. */
function cutUp(sheet: Size, count: number, random: Random): Size[] {
  let pieces = [sheet];
  while (pieces.length < count) {
    pieces.sort((a, b) => b.width * b.height - a.width * a.height);
    // Mostly one of the largest, so that pieces are alike but not equal.
    const at = Math.floor(random() * random() * pieces.length);
    const pinwheel = random() < 0.3 && pieces.length + 4 <= count;
    const cut = pinwheel ? inPinwheel(pieces[at]!, random) : inTwo(pieces[at]!, random);
    if (cut === null && at === 0) break;
    if (cut !== null) pieces = [...pieces.slice(0, at), ...cut, ...pieces.slice(at + 1)];
  }
  return pieces;
}

function inTwo(piece: Size, random: Random): Size[] | null {
  const across = random() < piece.width / (piece.width + piece.height);
  const side = across ? 'width' : 'height';
  const long = piece[side];
  if (long < 2 * LEAST_SIDE) return null;
  const first = between(
    random,
    Math.max(LEAST_SIDE, Math.floor(0.2 * long)),
    Math.min(long - LEAST_SIDE, Math.floor(0.8 * long)),
  );
  return [
    { ...piece, [side]: first },
    { ...piece, [side]: long - first },
  ];
}

/** Four pieces around a fifth, which no cut from edge to edge could part. */
function inPinwheel({ width, height }: Size, random: Random): Size[] | null {
  if (Math.min(width, height) < 4 * LEAST_SIDE) return null;
  const third = (side: number): [number, number] => [
    between(random, LEAST_SIDE, Math.floor(side / 2) - LEAST_SIDE / 2),
    between(random, Math.ceil(side / 2) + LEAST_SIDE / 2, side - LEAST_SIDE),
  ];
  const [x1, x2] = third(width);
  const [y1, y2] = third(height);
  return [
    { width: x2, height: y1 },
    { width: width - x2, height: y2 },
    { width: width - x1, height: height - y2 },
    { width: x1, height: height - y1 },
    { width: x2 - x1, height: y2 - y1 },
  ];
}

/** The pieces without `waste` square millimetres: small ones are dropped, others lose strips. */
function wasted(cut: readonly Size[], waste: number, random: Random): Size[] {
  let pieces = [...cut];
  let left = waste;
  const small = pieces.filter((piece) => areaOf(piece) <= left);
  if (small.length > 0 && random() < 0.5) {
    const dropped = oneOf(random, small);
    pieces = pieces.filter((piece) => piece !== dropped);
    left -= areaOf(dropped);
  }
  for (let tries = 0; tries < 400 && left > 0; tries++) {
    const at = Math.floor(random() * pieces.length);
    const piece = pieces[at]!;
    const side = random() < 0.5 ? 'width' : 'height';
    const other = areaOf(piece) / piece[side];
    const strip = Math.min(
      between(random, 1, Math.ceil(0.1 * piece[side])),
      Math.floor(left / other),
    );
    pieces[at] = { ...piece, [side]: piece[side] - strip };
    left -= strip * other;
  }
  return pieces;
}

function areaOf({ width, height }: Size): number {
  return width * height;
}

function turned({ width, height }: Size): Size {
  return { width: height, height: width };
}

function shuffled<T>(values: readonly T[], random: Random): T[] {
  const keyed = values.map((value) => ({ value, key: random() }));
  return keyed.sort((a, b) => a.key - b.key).map(({ value }) => value);
}

function between(random: Random, least: number, most: number): number {
  return least + Math.floor(random() * (Math.max(least, most) - least + 1));
}

function oneOf<T>(random: Random, values: readonly T[]): T {
  return values[Math.floor(random() * values.length)] as T;
}
