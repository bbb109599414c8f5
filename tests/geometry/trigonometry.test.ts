import { describe, expect, it } from 'vitest';
import { cosDeg, log, sinDeg } from '../../src/geometry/trigonometry.ts';

describe('sine and cosine', () => {
  it.each([
    [0, 1, 0],
    [30, Math.sqrt(3) / 2, 0.5],
    [60, 0.5, Math.sqrt(3) / 2],
    [90, 0, 1],
    [120, -0.5, Math.sqrt(3) / 2],
    [180, -1, 0],
    [210, -Math.sqrt(3) / 2, -0.5],
    [270, 0, -1],
    [300, 0.5, -Math.sqrt(3) / 2],
    [360, 1, 0],
    [-90, 0, -1],
    [-30, Math.sqrt(3) / 2, -0.5],
    [-180, -1, 0],
    [810, 0, 1],
    [-3600, 1, 0],
  ])('of %i degrees', (deg, cos, sin) => {
    const exact = (value: number) => Math.abs(value) === 0.5 || Number.isInteger(value);
    if (exact(cos)) expect(cosDeg(deg)).toBe(cos);
    if (exact(sin)) expect(sinDeg(deg)).toBe(sin);
    expect(cosDeg(deg)).toBeCloseTo(cos, 15);
    expect(sinDeg(deg)).toBeCloseTo(sin, 15);
  });

  it('agrees with the platform to 5e-16 where the platform is exact enough itself', () => {
    for (let deg = 0; deg <= 45; deg += 0.0137) {
      expect(Math.abs(sinDeg(deg) - Math.sin((deg * Math.PI) / 180))).toBeLessThan(5e-16);
      expect(Math.abs(cosDeg(deg) - Math.cos((deg * Math.PI) / 180))).toBeLessThan(5e-16);
    }
  });

  it('has every symmetry to the last bit', () => {
    for (let deg = 0; deg <= 90; deg += 0.25) {
      expect(sinDeg(-deg)).toBe(0 - sinDeg(deg));
      expect(cosDeg(-deg)).toBe(cosDeg(deg));
      expect(sinDeg(180 - deg)).toBe(sinDeg(deg));
      expect(cosDeg(180 - deg)).toBe(0 - cosDeg(deg));
      expect(cosDeg(90 - deg)).toBe(sinDeg(deg));
      expect(sinDeg(deg + 720)).toBe(sinDeg(deg));
      expect(Math.abs(sinDeg(deg) * sinDeg(deg) + cosDeg(deg) * cosDeg(deg) - 1)).toBeLessThan(
        1e-15,
      );
    }
  });
});

describe('logarithm', () => {
  it('agrees with the platform', () => {
    for (let x = 1e-12; x < 1e12; x *= 1.0137) {
      const error = Math.abs(log(x) - Math.log(x));
      expect(error).toBeLessThan(1e-15 * Math.max(1, Math.abs(Math.log(x))));
    }
  });

  it.each([
    [1, 0],
    [2, Math.LN2],
    [0.25, -2 * Math.LN2],
    [Number.MIN_VALUE, -1074 * Math.LN2],
    [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY],
    [0, Number.NEGATIVE_INFINITY],
    [-1, Number.NaN],
    [Number.NaN, Number.NaN],
  ])('of %d', (x, value) => {
    expect(log(x)).toBe(value);
  });
});
