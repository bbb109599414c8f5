import { boxOfShape } from '../../src/geometry/pose.ts';
import { toMm } from '../../src/model/units.ts';
import {
  type JobInput,
  type PartInput,
  partOf,
  type SheetInput,
  sheetOf,
} from '../helpers/jobs.ts';
import { arch, disc, polygon, rect, rounded } from '../helpers/shapes.ts';
import { cabinetPieces } from './cabinet-pieces.ts';

/** Sheets without prices, with prices, and one of them in packs. */
export const STOCKS = {
  single: [sheetOf(2440, 1220, { trim: 10 })],
  priced: priced(1),
  packs: priced(2),
} as const satisfies Record<string, readonly SheetInput[]>;

function priced(pack: number): readonly SheetInput[] {
  return [
    sheetOf(2440, 1220, { trim: 10, priceCents: 8000 }),
    sheetOf(2800, 2070, { trim: 10, priceCents: 14_000 }),
    sheetOf(1525, 1525, { trim: 10, priceCents: 6100, pack }),
  ];
}

const CURVED = [
  polygon([0, 0], [500, 0], [0, 400]),
  polygon([0, 0], [420, 0], [340, 260], [80, 260]),
  disc(300),
  arch(600, 180, 90),
  rounded(440, 280, 70),
];

/** Mostly rectangles of cabinets, and a few pieces of each of five outlines. */
export function mixedInput(count: number, seed: number, sheets: readonly SheetInput[]): JobInput {
  const cabinets = cabinetPieces(count, seed).map(({ width, height }) =>
    partOf(rect(width, height)),
  );
  const curved = CURVED.map((shape, k) => partOf(shape, { count: 1 + ((seed + k) % 2) }));
  return { spacing: 8, sheets, parts: [...cabinets, ...curved] };
}

/** The same with the bounding rectangle of every outline in its place. */
export function boxedInput(input: JobInput): JobInput {
  const boxed = (part: PartInput): PartInput => {
    const { minX, minY, maxX, maxY } = boxOfShape(part.shape);
    return { ...part, shape: rect(toMm(maxX - minX), toMm(maxY - minY)) };
  };
  return {
    ...input,
    parts: input.parts.map((part) => (part.kind === 'part' ? boxed(part) : part)),
  };
}
