import { MaxRectsPacker, PACKING_LOGIC, Rectangle } from 'maxrects-packer';
import { describe, expect, it } from 'vitest';
import { fromMm } from '../../src/model/units.ts';
import { type Random, seededRandom } from '../../src/packing/random.ts';
import { cabinetPieces } from '../packing/cabinet-pieces.ts';
import { packCounted } from '../packing/counted-pack.ts';
import { jobOf, QUARTERS } from '../packing/jobs.ts';

interface Piece {
  readonly width: number;
  readonly height: number;
  readonly mayTurn: boolean;
}

interface Trial {
  readonly length: number;
  readonly width: number;
  readonly pieces: readonly Piece[];
}

/** A little of the work of quick effort. */
const ASKS = 12;
const SEEDS = Array.from({ length: 60 }, (_, k) => k + 1);

const LOGICS = [PACKING_LOGIC.MAX_AREA, PACKING_LOGIC.MAX_EDGE];
const ORDERS: readonly ((piece: Piece) => number)[] = [
  ({ width, height }) => width * height,
  ({ width, height }) => Math.max(width, height),
  ({ width }) => width,
  ({ height }) => height,
  ({ width, height }) => width + height,
];

describe('a plan without spacing', () => {
  it.each(SEEDS)(
    'is never worse than the best that the maximal-rectangles library gives (%i)',
    (seed) => {
      const { length, width, pieces } = trial(seed);
      const job = jobOf(
        [{ length: fromMm(length), width: fromMm(width) }],
        pieces.map((piece) => ({
          width: fromMm(piece.width),
          height: fromMm(piece.height),
          turns: piece.mayTurn ? QUARTERS : [0],
        })),
      );
      const best = Math.min(
        ...LOGICS.flatMap((logic) =>
          ORDERS.map((order) => librarySheets(trial(seed), logic, order)),
        ),
      );
      expect(packCounted(job, ASKS).used).toBeLessThanOrEqual(best);
    },
  );
});

function librarySheets(
  { length, width, pieces }: Trial,
  logic: PACKING_LOGIC,
  order: (piece: Piece) => number,
): number {
  const options = { smart: false, pot: false, square: false, logic };
  const packer = new MaxRectsPacker(length, width, 0, options);
  for (const piece of pieces.toSorted((a, b) => order(b) - order(a)))
    packer.add(new Rectangle(piece.width, piece.height, 0, 0, false, piece.mayTurn));
  expect(packer.bins.flatMap(({ rects }) => rects).length).toBe(pieces.length);
  return packer.bins.length;
}

/** Cabinets, or pieces of any size up to most of a sheet, some of which must lie as drawn; in mm. */
function trial(seed: number): Trial {
  const random = seededRandom(seed);
  const [length, width] = [2440, 1220];
  const count = between(random, 10, 70);
  if (seed % 3 === 0) {
    const pieces = cabinetPieces(count, seed).map((piece) => ({ ...piece, mayTurn: true }));
    return { length, width, pieces };
  }
  const share = 0.2 + 0.7 * random();
  const still = random() < 0.5 ? random() : 0;
  const pieces = Array.from({ length: count }, () => ({
    width: between(random, 60, share * length),
    height: between(random, 60, share * width),
    mayTurn: random() >= still,
  }));
  return { length, width, pieces };
}

function between(random: Random, least: number, most: number): number {
  return least + Math.floor(random() * (Math.floor(most) - least + 1));
}
