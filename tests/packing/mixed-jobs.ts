import { UNITS_PER_INCH, UNITS_PER_MM } from '../../src/model/units.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import {
  type JobInput,
  type PartInput,
  partOf,
  type SetInput,
  type SheetInput,
  setOf,
  sheetOf,
} from '../helpers/jobs.ts';
import { rect } from '../helpers/shapes.ts';
import { QUARTERS } from './jobs.ts';

/** What a job of rectangles may have beside sheets without limit and pieces that lie anywhere. */
export interface Mixture {
  /** Counts on hand, and prices. */
  readonly stock: boolean;
  /** Pieces that fit no sheet. */
  readonly tooLarge: boolean;
}

/**
 * Jobs of 1 to 40 rectangles with all that the rectangle engine knows: spacing, trim an edge, grain, keep-outs, several stocks, matched sets, and lengths that
 * nobody would choose. Every length is a whole number of base lengths.
 */
export function mixedJob(
  seed: number,
  mixture: Mixture = { stock: true, tooLarge: true },
): JobInput {
  const random = seededRandom(seed);
  const spacing = oneOf(random, [0, 0, 3.2, 6.35, 8, oddLength(random, 0, 10)]);
  const kinds = oneOf(random, [1, 1, 1, 2, 2, 3]);
  const priced = mixture.stock && random() < 0.6;
  const sheets = Array.from({ length: kinds }, () => someSheet(random, mixture.stock, priced));
  const most = oneOf(random, [1, 4, 12, 40, 40, 40]);
  const parts: (PartInput | SetInput)[] = [];
  for (let left = between(random, 1, most); left > 0; ) {
    const part = somePart(random, { left, spacing, sheets, tooLarge: mixture.tooLarge });
    parts.push(part);
    left -= (part.count ?? 1) * (part.kind === 'set' ? part.shapes.length : 1);
  }
  return { spacing, sheets, parts };
}

function someSheet(random: Random, limited: boolean, priced: boolean): SheetInput {
  const [length, width] = oneOf(random, [
    [anyLength(random, 300, 2440), anyLength(random, 200, 1220)],
    [anyLength(random, 300, 900), anyLength(random, 200, 900)],
    [2440, 1220],
    [600, 600],
  ] as const);
  const trim = () => oneOf(random, [0, 0, 5, 10, 3.175, oddLength(random, 0, 12)]);
  const keepOut = (): readonly [number, number, number, number] => [
    anyLength(random, 0, length * 0.9),
    anyLength(random, 0, width * 0.9),
    anyLength(random, 1, length * 0.3),
    anyLength(random, 1, width * 0.3),
  ];
  return sheetOf(length, width, {
    trim: { left: trim(), right: trim(), bottom: trim(), top: trim() },
    grain: oneOf(random, ['x', 'y', null]),
    keepOuts: random() < 0.25 ? Array.from({ length: between(random, 1, 3) }, keepOut) : [],
    priceCents: priced ? between(random, 500, 9900) : null,
    onHand: limited && random() < 0.25 ? between(random, 1, 4) : null,
  });
}

interface Wanted {
  /** Pieces that are still to come. */
  readonly left: number;
  readonly spacing: number;
  readonly sheets: readonly SheetInput[];
  readonly tooLarge: boolean;
}

function somePart(random: Random, wanted: Wanted): PartInput | SetInput {
  const traits = {
    grain: oneOf(random, ['any', 'any', 'along', 'across'] as const),
    face: oneOf(random, ['up', 'either'] as const),
    turns: oneOf<readonly number[]>(random, [[0], [0, 180], [0, 90], QUARTERS, QUARTERS]),
  };
  const sheet = oneOf(random, wanted.sheets);
  if (wanted.left >= 2 && random() < 0.08) {
    const level = anyLength(random, 30, sheet.width / 3);
    const members = Math.min(wanted.left, between(random, 2, 3));
    const running = Array.from({ length: members }, () => anyLength(random, 20, sheet.length / 5));
    const axis = oneOf(random, ['x', 'y'] as const);
    const shapes = running.map((side) => (axis === 'x' ? rect(side, level) : rect(level, side)));
    return setOf(shapes, axis, traits);
  }
  const [width, height] = someSize(random, sheet, wanted);
  const count = Math.min(wanted.left, oneOf(random, [1, 1, 1, 2, 4, 9]));
  return partOf(rect(width, height), { ...traits, count });
}

/** Mostly ordinary sizes; some just as large as the usable sheet or an equal share of it, lying or standing, and some too large for it. */
function someSize(
  random: Random,
  sheet: SheetInput,
  { spacing, tooLarge }: Wanted,
): readonly [number, number] {
  const [length, width] = usableSize(sheet);
  const share = (side: number, n: number) => onGrid((side - (n - 1) * spacing) / n);
  const ordinary: [number, number] = [
    anyLength(random, 20, length / oneOf(random, [1.3, 2, 3, 6])),
    anyLength(random, 20, width / oneOf(random, [1.3, 2, 3, 6])),
  ];
  const draw = random();
  if (draw < 0.7) return ordinary;
  const [w, h]: [number, number] =
    draw < 0.985
      ? [share(length, between(random, 1, 5)), share(width, between(random, 1, 5))]
      : [tooLarge ? length + 1 / UNITS_PER_MM : length, width];
  return random() < 0.5 ? [w, h] : [h, w];
}

function usableSize({ length, width, trim }: SheetInput): readonly [number, number] {
  const { left = 0, right = 0, bottom = 0, top = 0 } = typeof trim === 'object' ? trim : {};
  return [length - left - right, width - bottom - top];
}

/** Whole millimetres, 64ths of an inch, or any whole number of base lengths; in mm. */
function anyLength(random: Random, least: number, most: number): number {
  const draw = random();
  if (draw < 0.6) return between(random, Math.ceil(least), Math.max(Math.ceil(least), most));
  if (draw < 0.8) return onGrid(oddLength(random, least, most));
  const inch64 = UNITS_PER_INCH / 64 / UNITS_PER_MM;
  return between(random, Math.ceil(least / inch64), Math.floor(most / inch64)) * inch64;
}

function oddLength(random: Random, least: number, most: number): number {
  const units = between(random, Math.ceil(least * UNITS_PER_MM), Math.floor(most * UNITS_PER_MM));
  return (units - (units % 2) + 1) / UNITS_PER_MM;
}

/** Rounded down to whole base lengths. */
function onGrid(length: number): number {
  return Math.floor(length * UNITS_PER_MM + 1e-6) / UNITS_PER_MM;
}

function between(random: Random, least: number, most: number): number {
  return least + Math.floor(random() * (Math.max(least, Math.floor(most)) - least + 1));
}

function oneOf<T>(random: Random, values: readonly T[]): T {
  return values[Math.floor(random() * values.length)] as T;
}
