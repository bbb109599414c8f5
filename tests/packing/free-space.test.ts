import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../src/packing/random.ts';
import { FreeSpace } from '../../src/packing/rectangles/free-space.ts';

const SIDE = 12;
const SEEDS = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

describe('FreeSpace', () => {
  it.each(SEEDS)('lists just the maximal free rectangles, by looking at every one (%i)', (seed) => {
    const random = seededRandom(seed);
    const space = new FreeSpace();
    space.clear(SIDE, SIDE);
    const taken = new Set<string>();
    for (let k = 0; k < 8; k++) {
      const [x, y] = [Math.floor(random() * SIDE) - 1, Math.floor(random() * SIDE) - 1];
      const [w, h] = [1 + Math.floor(random() * 4), 1 + Math.floor(random() * 4)];
      space.take(x, y, x + w, y + h, 1, 1);
      for (let i = x; i < x + w; i++) for (let j = y; j < y + h; j++) taken.add(`${i},${j}`);
      expect(listed(space)).toEqual(maximalFree(taken));
    }
  });

  it('drops what is too small for anything still to come', () => {
    const space = new FreeSpace();
    space.clear(10, 10);
    space.take(0, 0, 8, 7, 3, 3);
    expect(listed(space)).toEqual(['0,7,10,10']);
  });

  it('gives a corner up with all that starts there', () => {
    const space = new FreeSpace();
    space.clear(10, 10);
    space.take(4, 4, 10, 10, 1, 1);
    space.giveUp(0, 0);
    expect(space.count).toBe(0);
  });
});

function listed({ count, minX, minY, maxX, maxY }: FreeSpace): string[] {
  return Array.from({ length: count }, (_, i) =>
    [minX[i], minY[i], maxX[i], maxY[i]].join(),
  ).sort();
}

/** Every free rectangle that cannot grow by one on any side. */
function maximalFree(taken: ReadonlySet<string>): string[] {
  const isFree = (x1: number, y1: number, x2: number, y2: number) => {
    if (x1 < 0 || y1 < 0 || x2 > SIDE || y2 > SIDE) return false;
    for (let i = x1; i < x2; i++)
      for (let j = y1; j < y2; j++) if (taken.has(`${i},${j}`)) return false;
    return true;
  };
  const found: string[] = [];
  for (let x1 = 0; x1 < SIDE; x1++)
    for (let y1 = 0; y1 < SIDE; y1++)
      for (let x2 = x1 + 1; x2 <= SIDE; x2++)
        for (let y2 = y1 + 1; y2 <= SIDE; y2++) {
          const grows =
            isFree(x1 - 1, y1, x2, y2) ||
            isFree(x1, y1 - 1, x2, y2) ||
            isFree(x1, y1, x2 + 1, y2) ||
            isFree(x1, y1, x2, y2 + 1);
          if (!grows && isFree(x1, y1, x2, y2)) found.push([x1, y1, x2, y2].join());
        }
  return found.sort();
}
