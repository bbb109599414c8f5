import { describe, expect, it } from 'vitest';
import { meanDistance, sidesOf } from '../../src/holding/friction.ts';
import { turningPoints } from '../../src/holding/turning.ts';
import { UNITS_PER_MM } from '../../src/model/units.ts';
import { ringOf } from '../geometry/ways.ts';

/** A rectangle of so many millimetres about its centre. */
function pressed(width: number, height: number) {
  const [x, y] = [(width * UNITS_PER_MM) / 2, (height * UNITS_PER_MM) / 2];
  const sides = sidesOf([{ outer: ringOf([-x, -y], [x, -y], [x, y], [-x, y]), holes: [] }]);
  const centre = { x: 0, y: 0 };
  return { sides, centre, meanRadiusMm: meanDistance(sides, centre) / UNITS_PER_MM };
}

describe('the points that a thing may turn about', () => {
  it('begin with the centre, and lie all round it, nearer and farther than the mean distance', () => {
    const body = pressed(300, 200);
    const [first, ...round] = turningPoints(body);
    expect(first).toEqual({ xMm: 0, yMm: 0, meanMm: body.meanRadiusMm });
    const shares = round.map(({ xMm, yMm }) => Math.hypot(xMm, yMm) / body.meanRadiusMm);
    expect(Math.min(...shares)).toBeLessThan(1);
    expect(Math.max(...shares)).toBeGreaterThan(1);
    expect(round.reduce((sum, { xMm }) => sum + xMm, 0)).toBeCloseTo(0, 6);
    expect(round.reduce((sum, { yMm }) => sum + yMm, 0)).toBeCloseTo(0, 6);
  });

  it('have the mean distances of the area from them', () => {
    const body = pressed(300, 200);
    for (const { xMm, yMm, meanMm } of turningPoints(body)) {
      const from = { x: xMm * UNITS_PER_MM, y: yMm * UNITS_PER_MM };
      expect(meanMm).toBeCloseTo(meanDistance(body.sides, from) / UNITS_PER_MM, 9);
    }
  });

  it('lie twice as far where the thing is twice as large', () => {
    const large = turningPoints(pressed(600, 400));
    turningPoints(pressed(300, 200)).forEach(({ xMm, yMm, meanMm }, k) => {
      expect(large[k]!.xMm).toBeCloseTo(2 * xMm, 6);
      expect(large[k]!.yMm).toBeCloseTo(2 * yMm, 6);
      expect(large[k]!.meanMm).toBeCloseTo(2 * meanMm, 6);
    });
  });
});
