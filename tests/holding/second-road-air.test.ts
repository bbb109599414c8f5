import { describe, expect, it } from 'vitest';
import { borderLossMm, fieldShare } from '../../src/holding/border.ts';
import { leakWidthMm } from '../../src/holding/leak.ts';
import { rect } from '../helpers/shapes.ts';
import { borderedBody, regionOf } from './jobs.ts';
import { lost, vacuumLeft } from './second-road-block.ts';
import { type Section, sectionUnderKerf } from './second-road-section.ts';

// Lengths beside a kerf are in thicknesses of the board, which is to say for a board of 1 mm.

describe('the width of a kerf that leaks', () => {
  const BEYOND = 3;

  it.each([0.1, 0.2, 0.3, 0.5, 1, 2])(
    'is that of finite differences for a kerf of %d thicknesses',
    (kerf) => {
      const [coarse, fine] = [20, 40].map((n) => sectionUnderKerf(kerf, BEYOND, n).leakWidth);
      const exact = leakWidthMm(kerf, 1);
      expect(Math.abs(extrapolated(coarse!, fine!) / exact - 1)).toBeLessThan(0.0025);
      // The error of a grid is in proportion to its squares, or the extrapolation would not hold.
      expect(Math.abs((coarse! - exact) / (fine! - exact) - 2)).toBeLessThan(0.06);
    },
  );
});

describe('the border that a kerf takes', () => {
  const [coarse, fine] = [20, 40].map((n) => sectionUnderKerf(6, 4, n)) as [Section, Section];
  const border = (inside: number): number =>
    extrapolated(borderOf(coarse, inside), borderOf(fine, inside));

  it('beside a wide kerf is that of finite differences', () => {
    expect(borderOf(coarse, 1) / borderLossMm(1)).toBeGreaterThan(1.03);
    expect(border(1) / borderLossMm(1)).toBeCloseTo(1, 3);
  });

  it.each([0.25, 0.5, 1, 2])('falls off as in finite differences at %d thicknesses', (away) => {
    const values = [coarse, fine].map(({ covered, across }) => covered[away * across]!);
    expect(extrapolated(values[0]!, values[1]!)).toBeCloseTo(fieldShare(away), 3);
  });

  it.each([0.85, 0.7, 0.5, 0.3, 0.1])(
    'is wider with %d of the air pressure left below',
    (inside) => {
      expect(border(inside) / borderLossMm(1, inside)).toBeCloseTo(1, 2);
    },
  );

  it.each([0.2, 1 / 3, 0.6, 1])(
    'is narrower beside a narrow kerf, here of %d thicknesses',
    (kerf) => {
      for (const inside of [1, 0.75, 0.5, 0.3]) {
        const exact = borderLossMm(1, inside, kerf);
        expect(exact).toBeLessThan(borderLossMm(1, inside));
        expect(borderBeside(kerf, inside) / exact, `${inside}`).toBeCloseTo(1, 2);
      }
    },
  );
});

describe('a square piece with a kerf all round', () => {
  const cautious = (side: number, inside: number): number =>
    borderedBody(regionOf(rect(side, side)), borderLossMm(18, inside, 6)).heldAreaMm2 / side ** 2;

  it.each([
    [50, 0.57],
    [100, 0.755],
  ])('of %d mm keeps more of its vacuum than the formula says', (side, share) => {
    const square = { side, kerf: 6, board: 18, beyond: 24 };
    const insides = [1, 0.75, 0.5, 0.3];
    const [coarse, fine] = [2, 1].map((cube) => vacuumLeft(square, cube, insides));
    const kept = insides.map((_, i) => extrapolated(coarse![i]!, fine![i]!));
    expect(Math.abs(kept[0]! - share)).toBeLessThan(0.02);
    insides.forEach((inside, i) => {
      expect(kept[i]).toBeGreaterThan(cautious(side, inside));
    });
  });
});

/** From a grid and one of half its squares, whose errors are in proportion to them. */
function extrapolated(coarse: number, fine: number): number {
  return 2 * fine - coarse;
}

/** With 30 and 60 squares, so that a third of the thickness is a whole number of them. */
function borderBeside(kerf: number, inside: number): number {
  const [coarse, fine] = gridsBeside(kerf).map((grid) => borderOf(grid, inside));
  return extrapolated(coarse!, fine!);
}

const KNOWN = new Map<number, readonly Section[]>();

function gridsBeside(kerf: number): readonly Section[] {
  const grids = KNOWN.get(kerf) ?? [30, 60].map((across) => sectionUnderKerf(kerf, 3, across));
  KNOWN.set(kerf, grids);
  return grids;
}

/** Lost vacuum along the top, summed up from the end of the kerf. */
function borderOf({ covered, across }: Section, inside: number): number {
  const last = covered.length - 1;
  const sum = covered.reduce(
    (total, value, k) => total + lost(value, inside) * (k === 0 || k === last ? 0.5 : 1),
    0,
  );
  return sum / across;
}
