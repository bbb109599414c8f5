import { type Random, seededRandom } from '../../src/packing/random.ts';

export interface CabinetPiece {
  readonly width: number;
  readonly height: number;
}

/**
 * Pieces of many cabinets, in mm, for runs that show how the packing scales; the sheet is 2440 x 1220 and every piece may be turned.
 * Each cabinet draws its width, height and depth and has sides, top and bottom, shelves, a back, and doors or drawers.
 */
export function cabinetPieces(count: number, seed: number): CabinetPiece[] {
  const random = seededRandom(seed);
  const pieces: CabinetPiece[] = [];
  while (pieces.length < count) pieces.push(...cabinet(random));
  return pieces.slice(0, count);
}

function cabinet(random: Random): CabinetPiece[] {
  const width = oneOf(random, [300, 400, 450, 500, 600, 800, 900]);
  const height = oneOf(random, [720, 900, 1200, 2000, 2200]);
  const depth = oneOf(random, [330, 450, 560]);
  const shelves = 1 + Math.floor(4 * random());
  const carcass = [
    ...copies(2, height, depth),
    ...copies(2, width - 36, depth),
    ...copies(shelves, width - 38, depth - 20),
    ...copies(1, width, height),
  ];
  if (random() < 0.5) {
    const doors = width > 500 ? copies(2, height, width / 2 - 3) : copies(1, height, width - 4);
    return [...carcass, ...doors];
  }
  const drawers = 2 + Math.floor(3 * random());
  return [
    ...carcass,
    ...copies(drawers, width - 4, Math.floor(height / drawers) - 3),
    ...copies(2 * drawers, depth - 40, 150),
    ...copies(2 * drawers, width - 90, 150),
  ];
}

function copies(count: number, width: number, height: number): CabinetPiece[] {
  return Array.from({ length: count }, () => ({ width, height }));
}

function oneOf(random: Random, values: readonly number[]): number {
  return values[Math.floor(values.length * random())] as number;
}
